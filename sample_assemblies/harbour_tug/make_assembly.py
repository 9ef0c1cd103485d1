#!/usr/bin/env python3
"""Writes harbour_tug.swing.json, its sculpted and its two flawed twins: python3 make_assembly.py FOLDER (sample_assemblies).

Both sides of the tug have the same parts and joints; writing them out by hand would be an invitation to mistakes.
Sizes are those of tug_sizes.h. Frame: as the tug floats; x to the bow, y to port, z up.
"""
import json
import pathlib
import re
import sys

SIDES = {"port": 1, "starboard": -1}
NAVY, RED, CREAM, YELLOW, STEEL, BRASS = "#2F4858", "#B5443A", "#EFE6D2", "#E9B44C", "#6B7A86", "#B08D57"
GLASS, RUBBER, TIMBER, STONE = "#BFE3EC", "#33373B", "#A9744F", "#A8A49C"
PIN_Y, ANKLE_Y, ARM_Y = 9.2, 12, 18.5
FIT = 0.4
ON_THE_LAP = 53.7  # Of the elbow at the oars: what the hand holds is all but on the thigh.
DETAILED = {"torso", "head", "window", "funnel", "stern_board", "thigh", "shin", "foot", "fender", "upper_arm", "forearm",
            "boathook"}


def part(name, mesh, colour, **more):
    made = {"name": name, "kind": more.pop("kind", "printed"), "colour": colour}
    if more.pop("clear", False):
        made["clear"] = True
    made["material"] = more.pop("material", "PLA")
    made["stages"] = {"block": f"parts/{mesh}.stl"}
    if mesh in DETAILED:
        made["stages"]["detail"] = f"detail/{mesh}.stl"
    made.update({"use": "block", "scale": 1})
    if more.pop("mirror", False):
        made["mirror"] = {"through": [0, 0, 0], "normal": [0, 1, 0]}
    if "at" in more:
        made["placement"] = {"at": more.pop("at"), "turn": [1, 0, 0, 0]}
    assert not more, more
    return made


def limb(name, mesh, colour, **more):
    return [part(f"{name}_{side}", mesh, colour, mirror=sign < 0, **more) for side, sign in SIDES.items()]


def pins(name, mesh, x, y, z):
    return [part(f"{name}_{side}", mesh, BRASS, at=[x, sign * y, z]) for side, sign in SIDES.items()]


def parts():
    made = [part("torso", "torso", NAVY), part("keel", "keel", RED), part("carriage", "carriage", STEEL),
            part("neck_pin", "small_pin", BRASS, at=[-12, 0, 10.6]), part("head", "head", CREAM)]
    made += [part(f"window_{side}", "window", GLASS, clear=True, material="PETG", mirror=sign < 0)
             for side, sign in SIDES.items()]
    made += limb("side_window", "side_window", GLASS, clear=True, material="PETG")
    made += limb("funnel", "funnel", RED) + limb("bung", "bung", STEEL)
    made += [part("stern_pin", "small_pin", BRASS, at=[-39.4, 0, 3.2]), part("stern_board", "stern_board", YELLOW)]
    made += pins("hip_pin", "pin", 0, PIN_Y, 13) + limb("thigh", "thigh", NAVY)
    made += limb("fender", "fender", RUBBER, kind="soft", material="TPU")
    made += pins("knee_pin_up", "pin", 22, PIN_Y, 4.5) + limb("knee_link", "knee_link", STEEL)
    made += pins("knee_pin_low", "pin", 32, PIN_Y, 4.5) + limb("shin", "shin", NAVY)
    made += pins("ankle_pin", "pin", 50, ANKLE_Y, 7.5) + limb("foot", "foot", RED)
    made += limb("upper_arm", "upper_arm", YELLOW) + pins("elbow_pin", "small_pin", -15, ARM_Y, 9)
    made += limb("forearm", "forearm", YELLOW) + [part("boathook", "boathook", TIMBER)]
    return made


def fixed(name, parent, child):
    return {"name": name, "type": "fixed", "parent": parent, "child": child}


def slide(name, parent, child, along, limits, clicks=None):
    made = {"name": name, "type": "slide", "parent": parent, "child": child, "along": along, "range": limits}
    if clicks:
        made["clicks"] = clicks
    return made


def hinge(name, parent, child, through, limits, zones=None, clicks=None, fit=FIT):
    """All turn up and over: x towards z."""
    made = {"name": name, "type": "hinge", "parent": parent, "child": child, "through": through, "along": [0, -1, 0],
            "range": limits}
    if clicks:
        made["clicks"] = clicks
    if zones:
        made["fit"] = fit
        made["zones"] = [{"radius": r, "from": a, "to": b} for r, a, b in zones]
    return made


def joints():
    lug, small = [(2.7, -1.8, 1.8)], (2.2, 1.5, 3.9)
    made = [slide("lift", None, "torso", [0, 0, 1], [0, 80]),
            {"name": "stand", "type": "hinge", "parent": None, "child": "torso", "through": [0, 0, 0],
             "along": [0, 1, 0], "range": [0, 90]},
            slide("keel slide", "torso", "keel", [-1, 0, 0], [0, 18]),
            slide("wheelhouse track", "torso", "carriage", [-1, 0, 0], [0, 18], [0, 18]),
            fixed("pin in carriage", "carriage", "neck_pin"),
            hinge("neck", "neck_pin", "head", [-12, 0, 10.6], [0, 90], [(2.2, -1.4, 1.4)], [0, 90])]
    for side, sign in SIDES.items():
        made += [fixed(f"window {side}", "head", f"window_{side}"),
                 fixed(f"side window {side}", "head", f"side_window_{side}"),
                 slide(f"funnel {side}", "torso", f"funnel_{side}", [0, 0, -1], [0, 12.2], [0, 12.2]),
                 fixed(f"bung {side}", "torso", f"bung_{side}")]
    made += [fixed("pin in stern", "torso", "stern_pin"),
             hinge("stern hinge", "stern_pin", "stern_board", [-39.4, 0, 3.2], [0, 150],
                   [(2.2, -3.9, -1.5), (2.2, 1.5, 3.9)])]
    for side, sign in SIDES.items():
        # The knee's lower pin turns in the shin, all along but for the link between; seen along -y.
        shin = [(2.7, -5.4, 9.2)] if sign > 0 else [(2.7, -9.2, 5.4)]
        made += [fixed(f"hip pin {side}", "torso", f"hip_pin_{side}"),
                 hinge(f"hip {side}", f"hip_pin_{side}", f"thigh_{side}", [0, sign * PIN_Y, 13], [0, 90], lug,
                       [0, 45, 90]),
                 fixed(f"fender {side}", f"thigh_{side}", f"fender_{side}"),
                 fixed(f"upper knee pin {side}", f"thigh_{side}", f"knee_pin_up_{side}"),
                 hinge(f"upper knee {side}", f"knee_pin_up_{side}", f"knee_link_{side}", [22, sign * PIN_Y, 4.5],
                       [-50, 0], lug, [-31, 0]),
                 fixed(f"lower knee pin {side}", f"knee_link_{side}", f"knee_pin_low_{side}"),
                 hinge(f"lower knee {side}", f"knee_pin_low_{side}", f"shin_{side}", [32, sign * PIN_Y, 4.5],
                       [-50, 0], shin, [-31, 0]),
                 fixed(f"ankle pin {side}", f"shin_{side}", f"ankle_pin_{side}"),
                 hinge(f"ankle {side}", f"ankle_pin_{side}", f"foot_{side}", [50, sign * ANKLE_Y, 7.5], [0, 90], lug,
                       [0, 32, 90]),
                 {"name": f"shoulder {side}", "type": "ball", "parent": "torso", "child": f"upper_arm_{side}",
                  "through": [-30, sign * ARM_Y, 9], "fit": 0, "zones": [{"radius": 4.05}]},
                 fixed(f"elbow pin {side}", f"upper_arm_{side}", f"elbow_pin_{side}"),
                 hinge(f"elbow {side}", f"elbow_pin_{side}", f"forearm_{side}", [-15, sign * ARM_Y, 9], [0, 120],
                       [(2.2, -1.45, 1.45)], [0, 20, 55, 90])]
    made += [fixed("deck clip", "thigh_port", "boathook"),
             hinge("hand grip", "forearm_port", "boathook", [-6.55, ARM_Y, 24.45], [0, 90])]
    return made


def both(name, value, between=" "):
    return {f"{name}{between}{side}": value for side in SIDES}


HELD = {"keel slide": 18, "wheelhouse track": 18, "neck": 90, **both("funnel", 12.2), "stern hinge": 150,
        "hand grip": 90}
STANDING = {"lift": 57.5, "stand": 90, **HELD, **both("hip", 0), **both("upper knee", 0), **both("lower knee", 0),
            **both("ankle", 90), **both("shoulder", [0, 0, 0]), "elbow port": 90, "elbow starboard": 20}
SITTING = {"lift": 4.56, "stand": 60, **HELD, **both("hip", 90), **both("upper knee", -31), **both("lower knee", -31),
           **both("ankle", 32), **both("shoulder", [0, -35, 0]), **both("elbow", 55)}
MOVING = [joint["name"] for joint in joints() if joint["type"] != "fixed"]


def mode(name, values, mount):
    zero = lambda joint: [0, 0, 0] if joint.startswith("shoulder") else 0
    return {"name": name, "values": {joint: values.get(joint, zero(joint)) for joint in sorted(MOVING)},
            "mounts": {"boathook": mount}}


def pick(values, *names):
    return {joint: value for joint, value in sorted(values.items()) if joint.startswith(names)}


def steps_to_deckhand():
    step = lambda name, *names: {"name": name, "moves": pick(STANDING, *names)}
    return [step("funnels down", "funnel"), step("keel back", "keel slide"), step("stern board open", "stern hinge"),
            step("wheelhouse aft", "wheelhouse track"), step("head up", "neck"), step("feet out", "ankle"),
            step("stand up", "stand", "lift"),
            {"name": "take the boathook", "replug": {"part": "boathook", "onto": "hand grip"}},
            step("bend the arms", "elbow")]


def steps_to_oars():
    return [{"name": "arms forward", "moves": pick(SITTING, "shoulder", "elbow")},
            {"name": "sit down", "moves": pick(SITTING, "stand", "lift", "hip")},
            {"name": "bend the knees", "moves": pick(SITTING, "upper knee", "lower knee", "ankle")}]


def contact(kind, **more):
    return {"kind": kind, **more}


def grip(modes, reason, steps=()):
    """Held in the modes; in the steps it is pressed in or pulled out."""
    held = [contact("grip", modes=modes, overlap=[0.05, 0.2], reason=reason)]
    return held + ([contact("snap", steps=list(steps), overlap=[0, 0.2], reason="pressed in or out")] if steps else [])


def pairs():
    held = ["deckhand", "at the oars"]
    pair = lambda a, b, contacts: {"parts": [a, b], "contacts": contacts}
    made = [pair("torso", "keel", grip(held, "the keel's end is pressed into the narrow end of its way")),
            pair("torso", "stern_board", [contact("snap", steps=["stern board open"], overlap=[0, 0.3],
                                                  reason="its bead passes the teeth at the stern")])]
    for side in SIDES:
        stop = contact("rest", modes=["tug"], gap=[0, 0.15], reason="the flange stops at the ring of its bore")
        made += [pair("torso", f"funnel_{side}", [stop]),
                 pair("keel", f"thigh_{side}", grip(["tug"], "the keel locks the legs", ["keel back"]))]
    made += [pair("thigh_port", "boathook", grip(["tug"], "clipped on deck")),
             pair("forearm_port", "boathook", grip(held, "held in the fist", ["take the boathook"]))]
    return made


def assembly():
    return {"swingroom": 1, "name": "Harbour tug", "process": "filament, 0.4 mm nozzle", "requiredGap": 0.3,
            "resolution": 0.01, "up": [0, 0, 1], "front": [1, 0, 0], "parts": parts(), "joints": joints(),
            "modes": [mode("tug", {}, "deck clip"), mode("deckhand", STANDING, "hand grip"),
                      mode("at the oars", SITTING, "hand grip")],
            "sequences": [{"name": "stand up", "from": "tug", "to": "deckhand", "steps": steps_to_deckhand()},
                          {"name": "take the oars", "from": "deckhand", "to": "at the oars", "steps": steps_to_oars()}],
            "pairs": pairs()}


def text_of(document):
    """As the program saves it: an indent of 2, lists of numbers or words on one line."""
    text = json.dumps(document, indent=2, ensure_ascii=False)
    flat = lambda match: "[" + ", ".join(item.strip() for item in match.group(1).split(",")) + "]"
    return re.sub(r'\[\s*((?:-?[\d.eE+-]+|"[^"\n]*")(?:,\s*(?:-?[\d.eE+-]+|"[^"\n]*"))*)\s*\]', flat, text) + "\n"


def other_head(name, mesh):
    return {"name": name, "replace": {"parts": [{"name": "head", "stages": {"detail": f"../harbour_tug/detail/{mesh}.stl"}}]}}


def detailed():
    """The tug as it is sculpted, with two more heads."""
    made = assembly()
    made["name"] = "Harbour tug, sculpted"
    for item in made["parts"]:
        item["stages"] = {stage: f"../harbour_tug/{mesh}" for stage, mesh in item["stages"].items()}
        if "detail" in item["stages"]:
            item["use"] = "detail"
    made["variants"] = [other_head("skipper", "head_skipper"), other_head("sou'wester", "head_souwester")]
    return made


def flawed(name, own):
    """The tug's blocks, and the joints by name: all parts are the tug's but for those in `own` (part: mesh)."""
    made = assembly()
    made["name"] = name
    for item in made["parts"]:
        mesh = item["stages"]["block"]
        item["stages"] = {"block": f"parts/{own[item['name']]}.stl" if item["name"] in own else f"../harbour_tug/{mesh}"}
    return made, {item["name"]: item for item in made["joints"]}


def draft():
    """The tug with the seven faults that harbour_tug_draft/README.md describes."""
    made, joint = flawed("Harbour tug, draft", {"torso": "torso", "keel": "keel", "carriage": "carriage",
                                                "forearm_port": "forearm"})
    joint["hip starboard"]["along"] = [0, 1, 0]
    joint["funnel port"].update({"range": [0, 14], "clicks": [0, 13.6]})
    for item in made["modes"][1:]:
        item["values"]["funnel port"] = 13.6
    steps = made["sequences"][0]["steps"]
    steps[0]["moves"]["funnel port"] = 13.6
    steps.insert(3, steps.pop(0))  # The wheelhouse goes aft over funnels that still stand.
    return made


def weak():
    """The tug with the seven faults in print that harbour_tug_weak/README.md describes."""
    made, joint = flawed("Harbour tug, weak print", {**{name: name for name in (
        "thigh_port", "thigh_starboard", "knee_link_starboard", "forearm_starboard")}, **both("foot", "foot", "_")})
    made["parts"].append(part("quay", "quay", STONE))
    for name in ("elbow starboard", "upper knee starboard"):
        del joint[name]["fit"]
    del joint["elbow port"]["clicks"]
    made["modes"][2]["values"]["elbow port"] = ON_THE_LAP
    made["sequences"][1]["steps"][0]["moves"]["elbow port"] = ON_THE_LAP
    return made


def write(folder, name, document):
    pathlib.Path(folder, name).mkdir(exist_ok=True)
    pathlib.Path(folder, name, f"{name}.swing.json").write_text(text_of(document), encoding="utf-8")


if __name__ == "__main__":
    write(sys.argv[1], "harbour_tug", assembly())
    write(sys.argv[1], "harbour_tug_detailed", detailed())
    write(sys.argv[1], "harbour_tug_draft", draft())
    write(sys.argv[1], "harbour_tug_weak", weak())
