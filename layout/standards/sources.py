"""The documents the figures come from, and where each was read."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

__all__ = [
    "ATX_FIGURES",
    "ATX_SPEC",
    "BEND_PAGE",
    "BORDER_PAGE",
    "BRACKET_CODE",
    "BUILDING_CABLE",
    "BUNDLE_NOTES",
    "CARD_KIT",
    "CARD_LIST",
    "CARD_OUTLINES",
    "COLOUR_NOTE",
    "COLOUR_PAGE",
    "CONNECTOR_CHAPTER",
    "COOLER_GUIDE",
    "DIMENSION_TEXTS",
    "DRIVE_FORMS",
    "FAN_GUIDE",
    "FAN_MODELS",
    "FAN_NOTES",
    "FAN_PATTERNS",
    "FOOTPRINTS",
    "GAUGE_FORMULA",
    "GAUGE_TABLE",
    "HANDS",
    "HOLE_TABLE",
    "LETTERING_PAGE",
    "LINE_PAGE",
    "MEMORY_PATENT",
    "MEMORY_SHEET",
    "MICRO_ATX",
    "MINI_ITX",
    "MUTED_PAGE",
    "PACKING_TABLE",
    "RACK_GUIDE",
    "RADIATOR_GUIDE",
    "RADIATOR_TALK",
    "READ_AT",
    "REDUCING_SCALES",
    "SCALES",
    "SHEET_PAGE",
    "SLOT_BRACKET",
    "SOCKET_1150",
    "SOCKET_1155",
    "SOCKET_1156",
    "SOCKET_SCATTER",
    "SOCKET_TABLE",
    "SSI_PAGE",
    "STRAND_CHART",
    "SUPPLY_GUIDE_09",
    "SUPPLY_GUIDE_20",
    "SUPPLY_GUIDE_30",
    "SUPPLY_MODELS",
    "SUPPLY_SAFETY",
    "SUPPLY_SIZES",
    "TITLE_PAGE",
    "UPKEEP_GUIDE",
    "WIRE_CRAFT",
    "WIRE_CRAFT_WIRES",
]

ATX_FIGURES: Final = "a public transcription of the ATX figures"
ATX_SPEC: Final = "ATX Specification 2.1"
BORDER_PAGE: Final = "ISO 5457, on a practice page"
BRACKET_CODE: Final = "a slot bracket model in public code"
CARD_KIT: Final = "PCI Express card specification 3.0, in a development kit manual"
CARD_LIST: Final = "PCI 2.2, on the special interest group's list"
CARD_OUTLINES: Final = "outlines drawn from PCI Express card specification 1.1"
COLOUR_NOTE: Final = "SRON/EPS/TN/09-002 issue 3.2"
COLOUR_PAGE: Final = "Okabe and Ito 2008, on a page of palettes"
CONNECTOR_CHAPTER: Final = "a book chapter on drive connectors"
COOLER_GUIDE: Final = "LGA775 thermal and mechanical design guidelines"
DIMENSION_TEXTS: Final = "national texts on ISO 129"
DRIVE_FORMS: Final = "a public page of drive form factors"
FAN_GUIDE: Final = "a public page on measuring fans"
FAN_MODELS: Final = "a public library of fan models"
FAN_NOTES: Final = "a fan maker's notes on axial fans"
FAN_PATTERNS: Final = "a public file of fan hole patterns"
FOOTPRINTS: Final = "an open footprint library of 2020"
HANDS: Final = "anthropometry table 29"
HOLE_TABLE: Final = "a public table of the ATX holes in inches"
LETTERING_PAGE: Final = "ISO 3098, on a page of lettering"
LINE_PAGE: Final = "ISO 128, on a drafting page"
MEMORY_PATENT: Final = "US patent application 20250126714, background"
MEMORY_SHEET: Final = "a 16 GB module data sheet citing MO-309"
MICRO_ATX: Final = "microATX Motherboard Interface Specification 1.2"
MINI_ITX: Final = "Mini-ITX Addendum 1.1"
MUTED_PAGE: Final = "SRON/EPS/TN/09-002, in public code"
RADIATOR_GUIDE: Final = "a forum's radiator size guide"
RADIATOR_TALK: Final = "a radiator's tech sheet quoted in a forum"
REDUCING_SCALES: Final = "ISO 5455, on a page of scales"
SCALES: Final = "ISO 5455:1979, 5.1"
SHEET_PAGE: Final = "ISO 216 and 5457, on a page of sheet sizes"
SLOT_BRACKET: Final = "a slot bracket model citing PCI Express card specification 1.1"
SOCKET_1150: Final = "LGA1150 Application Guide 328999-002"
SOCKET_1155: Final = "LGA1155 thermal and mechanical guidelines"
SOCKET_1156: Final = "LGA1156 thermal and mechanical guidelines"
SOCKET_SCATTER: Final = "builders' experience in a forum"
SOCKET_TABLE: Final = "personal notes on cooler holes"
SSI_PAGE: Final = "a public page citing SSI EEB 2011 1.0.1"
SUPPLY_GUIDE_09: Final = "ATX Power Supply Design Guide 0.9"
SUPPLY_GUIDE_20: Final = "ATX12V Power Supply Design Guide 2.0"
SUPPLY_GUIDE_30: Final = "ATX 3.0 power supply design guide, document 336521"
SUPPLY_MODELS: Final = "a public library of supply models"
SUPPLY_SAFETY: Final = "ATX 3.0 power supply design guide, chapter 5"
SUPPLY_SIZES: Final = "a public page of supply form factors"
TITLE_PAGE: Final = "ISO 7200:2004, on a page of data fields"
UPKEEP_GUIDE: Final = "DOD-HDBK-791"
WIRE_CRAFT: Final = "NASA-STD-8739.4, 7.3"
BEND_PAGE: Final = "a cable maker's bend radius page"
BUILDING_CABLE: Final = "ANSI/TIA-568.0-D, 4 diameters, in a trade journal"
BUNDLE_NOTES: Final = "a cable maker's notes on bundle sizes"
GAUGE_FORMULA: Final = "ASTM B258, the formula on a public page"
GAUGE_TABLE: Final = "a public table of wire gauges"
PACKING_TABLE: Final = "proved packings of circles in a circle, a public table"
RACK_GUIDE: Final = "a rack equipment installation manual"
STRAND_CHART: Final = "a public chart of stranded wire"
WIRE_CRAFT_WIRES: Final = "NASA-STD-8739.4, 7.3.21"

READ_AT: Final[Mapping[str, str]] = MappingProxyType(
    {
        ATX_FIGURES: "Wesxdz/giant-peach, atx_compliance.scad",
        ATX_SPEC: "https://www.overclock.net/posts/19503637",
        CARD_KIT: "https://intel.com/content/www/us/en/docs/programmable/683561/"
        "current/mechanical-requirements.html",
        CARD_LIST: "http://www.pcisig.com/reflector/msg04932.html",
        CARD_OUTLINES: "intergalaktik/ULX4M-PCIe-IO, commit c752f30, Library/"
        "PCIexpress.pretty",
        COOLER_GUIDE: "https://manualsbrain.com/en/manuals/75064/?page=61",
        DRIVE_FORMS: "https://www.liquisearch.com/disk_enclosure/form_factors; "
        "https://www.techtarget.com/searchstorage/definition/"
        "HDD-form-factor-hard-disk-drive-form-factor",
        FAN_GUIDE: "https://engineerfix.com/"
        "how-to-measure-a-fan-for-replacement-or-installation/",
        FAN_MODELS: "nophead/NopSCADlib, commit 34a9b0e, vitamins/fans.scad",
        FAN_PATTERNS: "futuroptimist/sugarkube, cad/pi_cluster/fan_patterns.scad",
        FOOTPRINTS: "KiCad/kicad-footprints, commit 7ebfa6b",
        HANDS: "http://personal.cityu.edu.hk/meachan/online%20anthropometry/"
        "Chapter2/Ch2-29.htm",
        HOLE_TABLE: "a public CAD code repository, address not known",
        MEMORY_PATENT: "https://trea.com/information/memory-modules-and-sockets/"
        "patentapplication/7b9bfcdd-52ad-4a82-97ae-5f57e8958aea",
        MEMORY_SHEET: "https://dokumen.tips/documents/"
        "ddr4-sdram-udimm-rs-components-products-group-sales-"
        "representative-2-all-part.html",
        MICRO_ATX: "https://www.manualshelf.com/manual/intel/dg41mj-1/"
        "microatx-motherboard-interface-specification/, pages 9 to 17",
        MINI_ITX: "https://www.manualshelf.com/manual/intel/"
        "celeron-processor-1-40-ghz-256k-cache-100-mhz-fsb/"
        "mini-itx-addendum-version-1-1-to-the-microatx-motherboard-interface-"
        "specification-version-1-2/page-5.html",
        RADIATOR_TALK: "https://hardforum.com/threads/"
        "i-need-help-understanding-all-in-one-radiator-"
        "classifications.2025337/",
        SLOT_BRACKET: "a public code repository, address not known",
        SOCKET_1150: "https://manualsdump.com/en/manuals/intel-bxf80646i74770k/"
        "110332/24",
        SOCKET_1155: "https://manualsdump.com/en/manuals/intel-dbs1200v3rps/110365/37",
        SOCKET_1156: "https://manualshive.com/ru/manual/intel/"
        "bx80605x3440-quad-core-xeon-x3440/2071632?page=33",
        SOCKET_SCATTER: "https://smallformfactor.net/forum/threads/"
        "consistency-of-location-of-a-cpu-socket-relative-to-the-"
        "board.17419/",
        SOCKET_TABLE: "LoveKapibarasan/my_website, PC/cooler.md",
        SSI_PAGE: "https://en.kevinzhw153.workers.dev/wiki/SSI_EEB",
        SUPPLY_GUIDE_09: "https://manualsdump.com/en/manuals/intel-0.9/46443/23",
        SUPPLY_GUIDE_20: "https://manualsdump.com/amp/en/manuals/109764/31 and /32",
        SUPPLY_GUIDE_30: "https://edc.intel.com/content/www/us/en/design/ipla/"
        "software-development-platforms/client/platforms/alder-lake-desktop/"
        "atx-version-3-0-multi-rail-desktop-platform-power-supply-design-guide/"
        "2.0/",
        SUPPLY_MODELS: "nophead/NopSCADlib, commit 0e8e387, vitamins/psus.scad",
        SUPPLY_SIZES: "https://vpsmate.net/list-computer-psu-form-factors.html; "
        "https://www.yijianpower.com/blog/"
        "how-to-test-sfx-power-supply-compatibility",
        FAN_NOTES: "https://manualshive.com/en/manual/omron/r87ft/742952?page=31",
        RADIATOR_GUIDE: "https://wario.hezongjian.com/community/forums/pcs-builds/"
        "water-cooling/radiator-size-guide",
        LINE_PAGE: "https://easytechcadsite.blogspot.com",
        SHEET_PAGE: "https://tasstudent.com/2019/05/30/drawing-sheet-sizes/",
        BORDER_PAGE: "https://www.cad-standard.com/technical-drawing-basics/"
        "drawing-sheet-layout-boarders-margins",
        TITLE_PAGE: "https://proficad.com/help/tb/data-fields-iso-7200.htm",
        SCALES: "a stored copy of https://www.scribd.com/document/211445170/ISO5455-79",
        REDUCING_SCALES: "http://www.metrication.com/drafting/scales.html",
        LETTERING_PAGE: "https://roymech.org/Useful_Tables/Drawing/Lettering.html",
        DIMENSION_TEXTS: "https://instudier.com/inquestion/11773224; https://"
        "ja.scribd.com/document/398713789/Dimensioning",
        COLOUR_PAGE: "https://biolabs.cloud/skill/scientific-visualization/file/"
        "references/color_palettes.md",
        COLOUR_NOTE: "https://rdrr.io/github/tesselle/khroma/src/data-raw/"
        "schemes_PaulTol.R",
        MUTED_PAGE: "https://rdrr.io/github/zachbrehm/ggmnmlab/src/data-raw/"
        "paulTol_pals.R",
        UPKEEP_GUIDE: "https://www.yumpu.com/en/document/view/51300544/"
        "maintainability-design-techniques-metric-acqnotescom, pages 77 and 170",
        SUPPLY_SAFETY: "https://easymanua.ls/intel/atx-3-0/manual?p=47",
        WIRE_CRAFT: "http://nepp.nasa.gov/index.cfm/14553",
        CONNECTOR_CHAPTER: "https://www.oreilly.com/library/view/pc-hardware-in/"
        "059600513X/ch13s02s02.html",
        BRACKET_CODE: "an excerpt, address not known",
        BEND_PAGE: "https://pickeringconnect.com/bend-radius-calculator/",
        BUILDING_CABLE: "https://www.cablinginstall.com/design-install/article/164665"
        "78/practical-impacts-of-bend-radius-on-twistedpair-cable-installation",
        BUNDLE_NOTES: "https://is-rayfast.com/news/wire-cable/calculating-wire-cable-"
        "bundle-size; https://is-rayfast.com/media/catalogue/files/basic-html/page544"
        ".html",
        GAUGE_FORMULA: "https://www.liquisearch.com/american_wire_gauge/formula; http"
        "s://tickerdossier.com/wiki/an-awg-15",
        GAUGE_TABLE: "https://cms.ua/en/articles/awg-labeling-system-thickness-of-the"
        "-wires",
        PACKING_TABLE: "https://en.wikipedia.org/wiki/Circle_packing_in_a_circle; htt"
        "ps://cnblogs.com/Uinkanade/articles/4199069.html",
        RACK_GUIDE: "https://azmanual.top/manuals/795478/h3c-technologies-h3c-wx6000-"
        "series-access-controllers.html?page=38",
        STRAND_CHART: "rusefi/rusefi wiki, PDFs/Stranded_Wire_Chart.pdf",
        WIRE_CRAFT_WIRES: "https://workmanship.nasa.gov/lib/insp/2%20books/links/sect"
        "ions/403%20Multi-Conductor.html",
    }
)
"""Where each document was read, as a stored copy."""
