"""Text that tries to be markup, and a description with it in every free-text field."""

from __future__ import annotations

TAGS = (
    "<script>window.broken=1</script><img src=x onerror='window.broken=1'>"
    "\"'&amp;</title></style>]]>-->{{7*7}}{% x %}"
)
SHORT = "<b onclick='window.broken=1'>\"&'</text></svg>{{7*7}}"
LONG = (TAGS + " lorem " * 2000)[:10_000]


def description():
    """Return a raw description in which every free-text field is hostile."""
    level = {
        "height": "300 mm",
        "bays": ["600 mm", "600 mm"],
        "contents": [{"what": SHORT}, {"what": "books-medium-hardback"}],
    }
    panel = {"material": SHORT, "thickness": "18 mm"}
    return {
        "title": LONG,
        "site": {
            "wall": "solid brick",
            "wall_layers": [{"what": SHORT, "thickness": "10 mm"}],
        },
        "materials": {
            SHORT: {
                "title": LONG,
                "kind": "plywood",
                "density": "500 kg/m3",
                "E": "9000 MPa",
                "E_across": "5000 MPa",
                "G": "500 MPa",
                "bending_strength": "30 MPa",
                "shear_strength": "3 MPa",
                "source": TAGS,
            }
        },
        "contents": {SHORT: {"title": LONG, "load": "20 kg/m", "source": TAGS}},
        "fixings": {SHORT: {"title": SHORT, "tension": "500 N", "shear": "700 N", "source": TAGS}},
        "unit": [
            {
                "name": SHORT,
                "depth": "300 mm",
                "panel": panel,
                "level": [level],
                "restraint": {"maker": SHORT, "carcass": SHORT},
            },
            {
                "name": SHORT[:40] + ": joins",
                "depth": "300 mm",
                "panel": panel,
                "level": [level],
                "rests_on": {"what": SHORT, "allowed": "200 kg", "source": TAGS},
            },
        ],
        "shelf": [
            {
                "name": "<i>" + SHORT,
                "depth": "250 mm",
                "spans": ["700 mm"],
                "shelf": panel,
                "contents": {"what": SHORT},
            }
        ],
    }
