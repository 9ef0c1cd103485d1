#pragma once

#include <string>

namespace swingroom::samples {

/// One of everything that an assembly file may hold, in canonical form.
/// The keys and their order are those of the description of the assembly file.
inline const std::string kEverything = R"({
  "swingroom": 1,
  "name": "Tug",
  "process": "0.4 nozzle",
  "requiredGap": 0.3,
  "resolution": 0.01,
  "up": [0, 0, 1],
  "front": [0, -1, 0],
  "parts": [
    {
      "name": "hull",
      "id": "p1",
      "kind": "printed",
      "colour": "#E69F00",
      "clear": false,
      "material": "PLA",
      "process": "fine",
      "count": 2,
      "stages": {
        "block": "hull.stl",
        "detail": "hull_detail.stl"
      },
      "use": "block",
      "scale": 25.4,
      "mirror": {
        "through": [0, 0, 0],
        "normal": [1, 0, 0]
      },
      "placement": {
        "at": [1.5, -2, 0.000025],
        "turn": [0.7071067811865476, 0, 0, 0.7071067811865476]
      }
    },
    {
      "name": "screw",
      "kind": "bought",
      "use": "block",
      "scale": 1
    }
  ],
  "joints": [
    {
      "name": "deck hinge",
      "type": "hinge",
      "parent": null,
      "child": "hull",
      "through": [0, 0, 10],
      "along": [0, 1, 0],
      "range": [-90, 90],
      "clicks": [-90, -45, 0, 45, 90],
      "fit": 0.4,
      "zones": [
        {
          "radius": 3,
          "from": -5,
          "to": 5
        }
      ],
      "play": 0.5,
      "follows": {
        "joint": "neck",
        "ratio": -1,
        "offset": 0
      }
    },
    {
      "name": "neck",
      "type": "ball",
      "parent": "hull",
      "child": "screw",
      "through": [0, 0, 10],
      "along": [0, 0, 1],
      "range": {
        "swing": 40,
        "twist": [-10, 10]
      },
      "zones": [
        {
          "radius": 3
        }
      ]
    }
  ],
  "modes": [
    {
      "name": "boat",
      "values": {
        "deck hinge": 0,
        "neck": [0, 0, 5]
      },
      "mounts": {
        "screw": "neck"
      }
    },
    {
      "name": "car",
      "placements": {
        "hull": {
          "at": [0, 0, 0],
          "turn": [1, 0, 0, 0]
        }
      }
    }
  ],
  "sequences": [
    {
      "name": "boat to car",
      "from": "boat",
      "to": "car",
      "steps": [
        {
          "name": "lift",
          "moves": {
            "deck hinge": 90
          },
          "order": "free"
        },
        {
          "name": "plug",
          "replug": {
            "part": "screw",
            "onto": "neck"
          }
        }
      ]
    }
  ],
  "pairs": [
    {
      "parts": ["hull", "screw"],
      "requiredGap": 0.2,
      "contacts": [
        {
          "kind": "snap",
          "modes": ["boat"],
          "steps": ["lift"],
          "overlap": [0.1, 0.2],
          "gap": [0, 0.1],
          "place": {
            "at": [0, 0, 0],
            "radius": 4
          },
          "reason": "a bump holds it"
        }
      ],
      "allow": "glued"
    }
  ],
  "variants": [
    {
      "name": "long hull",
      "replace": {
        "parts": [
          {
            "name": "hull"
          }
        ]
      }
    }
  ],
  "drawings": [
    {
      "view": "front",
      "picture": "front.png",
      "at": [2.5, 40],
      "mmPerPixel": 0.125,
      "opacity": 0.5,
      "threshold": 0.4,
      "mode": "boat"
    }
  ],
  "shop": {
    "price": 12.50,
    "tags": ["a", null, true]
  }
}
)";

}  // namespace swingroom::samples
