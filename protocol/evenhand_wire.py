#!/usr/bin/env python3
"""Evenhand's wire format in Python, written from WIRE.md alone. Standard library only.

    evenhand_wire.py read < BYTES      prints each frame as a line of JSON
    evenhand_wire.py hello             writes the bytes of a hello, for a port
    evenhand_wire.py check FILE        holds golden frames against this file
    evenhand_wire.py frames FILE       fills in the frames of golden messages anew

Messages are shown as {"Variant": {"field": value}}, quantities in the units of WIRE.md.
"""
import hashlib
import json
import sys
import time

MAJOR, MINOR, ROOM = 1, 5, 160

# The tables of WIRE.md. `?` is an option; `+` a field that its message gained later.
STRUCTS = {
    "Version": "major:u8 minor:u8", "Tolerance": "below:i64 above:i64",
    "Goal": "target:i64 tolerance:Tolerance", "PortionId": "device:u64 epoch:u32 number:u32",
    "KnownWeight": "mass:i64 limit:i64", "Point": "load:i64 millicounts:i64 noise_millicounts:u32",
    "Made": "points:u8 millicounts_per_gram:i64 heaviest:i64 nonlinearity:i64 residual:i64 uncertainty:i64",
    "SelfTest": "known:i64 indicated:i64 limit:i64 uncertainty:i64",
    "Standing": "points:u8 last:Point? made:Made?", "Place": "latitude_millidegrees:i32 height_metres:i16",
    "Hello": "version:Version device:u64 epoch:u32 at:u64 capabilities:u32 capacity:i64 interval:i64 outbox:u16"
    " verification_interval:i64+",
    "Reading": "at:u64 gross:i64? tare:i64 stable:bool amount:i64? verdict:Verdict? phase:Phase run:u32?"
    " temperature:i32? faults:u32 unsent:u16 lost:u32",
    "Portion": "id:PortionId run:u32 at:u64 unix:i64? mode:Mode mass:i64 goal:Goal temperature:i32? replaces:u32?"
    " doubts:u32 uncertainty:i64? left:i64? chain_link:ChainLink+", "ChainLink": "position:u32 previous:u64",
    "NoticeReport": "at:u64 notice:Notice", "FaultReport": "at:u64 fault:Fault present:bool",
    "Reply": "to:u16 outcome:Result", "CalibrationReport": "at:u64 standing:Standing",
    "TestedReport": "at:u64 test:SelfTest", "HelloCommand": "version:Version now:i64",
    "StartRun": "run:u32 mode:Mode goal:Goal",
    "Diagnosis": "at:u64 rate_millihertz:u32? noise_millicounts:u32? millicounts_per_gram:u32? conversions:u32"
    " bridge_faults:u32 bridge_timeouts:u32 bridge_restarts:u32 doubtful_reads:u32 probe_faults:u32"
    " start:StartReason stack_free:u32? flash_pages:u16 flash_erases:u32",
}
ENUMS = {
    "Report": "Hello:Hello Reading:Reading Portion:Portion Notice:NoticeReport Fault:FaultReport Reply:Reply"
    " Calibration:CalibrationReport Tested:TestedReport Diagnosis:Diagnosis",
    "Command": "Hello:HelloCommand Tare ClearTare Zero SetGoal:Goal StartRun:StartRun StopRun SetTime:i64"
    " Acknowledge:PortionId BeginCalibration TakePoint:KnownWeight FinishCalibration CancelCalibration"
    " TestWeight:KnownWeight Set:Setting Recall Diagnose",
    "Phase": "Weighing AwaitDish DishSettling Filling AwaitTin TinSettling Ready Spooning TinAway Blocked",
    "Notice": "RunStarted:u32 RunStopped:u32 DishTared:i64 DishReturned:u32 LiftedUnsettled LiftedEmpty"
    " Refilled:i64 TinAway TinBack:i64 Unaccounted:i64 Zeroed FoundOnPan:i64 FilledWhileTaken:i64 Recalled:u32",
    "Fault": "BridgeTimeout BridgeHighRail BridgeLowRail BridgeFrozen BridgeOutOfStep Overload NegativeLoad"
    " ZeroOutOfRange Uncalibrated ProbeOpen ProbeShortToGround ProbeShortToSupply ProbeSilent ProbeOutOfRange"
    " PortionsLost StorageFailed TooNoisy Restless",
    "Result": "Ok:unit Err:Refusal",
    "Refusal": "NotStable BeyondZeroRange NegativeTare Faulty Goal:GoalError NoRun Unknown Running NotCalibrating"
    " Calibration:CalibrationError Test:SelfTestRefusal Setting",
    "GoalError": "TargetNotPositive ToleranceNegative ToleranceSwallowsTarget BeyondCapacity",
    "CalibrationError": "TooFewPoints TooManyPoints NoZero NegativeLoad NotANumber NoSpan NotStraight",
    "SelfTestRefusal": "NotStable TooLight TooHeavy TooCoarse AnotherLoad",
    "Setting": "Probe:ProbeType Place:Place NoPlace",
    "StartReason": "Unknown Power Watchdog Program", "ProbeType": "K T J N E S R B", "Mode": "Adding Taking", "Verdict": "Short On Heavy",
}
KINDS = {"R": "Report", "C": "Command"}
BITS = {"bool": 1, "u8": 8, "u16": 16, "u32": 32, "u64": 64, "i16": 16, "i32": 32, "i64": 64}


Unknown = type("Unknown", (Exception,), {})  # A whole frame whose message is not known here.


def checksum(data):
    crc = 0xFFFFFFFF
    for byte in data:
        crc ^= byte
        for _ in range(8):
            crc = crc >> 1 ^ (0x82F63B78 if crc & 1 else 0)
    return crc ^ 0xFFFFFFFF


def stuff(data):
    # No frame is so long that a block of 254 bytes would need cutting.
    return b"".join(bytes([len(block) + 1]) + block for block in data.split(b"\0")) + b"\0"


def unstuff(data):
    out, at = bytearray(), 0
    while at < len(data):
        block = data[at + 1 : at + data[at]]
        if len(block) != data[at] - 1:
            return b""
        out += block
        at += data[at]
        if len(block) < 254 and at < len(data):
            out.append(0)
    return bytes(out)


def write(kind, value):
    """The bytes of a value of a type."""
    if kind.endswith(("?", "+")):
        return b"\0" if value is None else b"\1" + write(kind[:-1], value)
    if kind in STRUCTS:
        fields = [field.split(":") for field in STRUCTS[kind].split()]
        while fields[-1][1].endswith("+") and value.get(fields[-1][0]) is None:
            fields.pop()
        return b"".join(write(of, value.get(name)) for name, of in fields)
    if kind in ENUMS:
        name, inner = (value, None) if isinstance(value, str) else next(iter(value.items()))
        variants = [(variant + ":unit").split(":")[:2] for variant in ENUMS[kind].split()]
        number = [variant for variant, _ in variants].index(name)
        return write("u32", number) + write(variants[number][1], inner)
    if kind == "unit":
        return b""
    if kind in ("u8", "bool"):
        return bytes([value])
    if kind[0] == "i":
        value = value << 1 if value >= 0 else ~(value << 1)
    out = bytearray()
    while value > 0x7F:
        out.append(value & 0x7F | 0x80)
        value >>= 7
    return bytes(out) + bytes([value])


def read(kind, data, at):
    """A value of a type that begins at a place, and the place after it."""
    if kind.endswith(("?", "+")):
        some, at = (False, at) if kind[-1] == "+" and at == len(data) else read("bool", data, at)
        return read(kind[:-1], data, at) if some else (None, at)
    if kind in STRUCTS:
        value = {}
        for field in STRUCTS[kind].split():
            name, of = field.split(":")
            value[name], at = read(of, data, at)
        return value, at
    if kind in ENUMS:
        number, at = read("u32", data, at)
        if number >= len(ENUMS[kind].split()):
            raise Unknown
        name, of = (ENUMS[kind].split()[number] + ":unit").split(":")[:2]
        inner, at = read(of, data, at)
        return (name if of == "unit" and kind != "Result" else {name: inner}), at
    if kind == "unit":
        return None, at
    value, shift, more = 0, 0, True
    while more:
        if at == len(data) or shift > 63:
            raise Unknown
        more = kind not in ("u8", "bool") and data[at] & 0x80
        value |= (data[at] & 0x7F if BITS[kind] > 8 else data[at]) << shift
        at, shift = at + 1, shift + 7
    if value >> BITS[kind]:
        raise Unknown
    return (value >> 1 ^ -(value & 1) if kind[0] == "i" else value == 1 if kind == "bool" else value), at


def digest(portion):
    """What the portion after this one carries, as "The hash chain" in WIRE.md has it."""
    payload = write("Report", {"Portion": portion | {"unix": None}})
    return int.from_bytes(hashlib.sha256(payload).digest()[:8], "big")


def broken(portions):
    """The pairs of neighbours in a chain, in order, of which the later one carries another digest."""
    links = [portion["chain_link"]["previous"] for portion in portions]
    return [at for at, portion in enumerate(portions[:-1]) if digest(portion) != links[at + 1]]


def frame(kind, sequence, payload, major=MAJOR):
    raw = bytes([major, ord(kind)]) + sequence.to_bytes(2, "little") + payload
    return stuff(raw + checksum(raw).to_bytes(4, "little"))


def open_frame(data):
    """What a frame says, its closing zero taken off; None for noise."""
    raw = unstuff(data)
    body = raw[:-4]
    if not 5 <= len(body) <= 4 + ROOM or checksum(body).to_bytes(4, "little") != raw[-4:]:
        return None
    kind, says = chr(body[1]), {"kind": chr(body[1]), "sequence": int.from_bytes(body[2:4], "little")}
    if body[0] != MAJOR:
        return {"other_major": body[0]}
    try:  # Bytes after the message are fields of a later version.
        return says | {"message": read(KINDS[kind], body[4:], 0)[0]}
    except (Unknown, KeyError):
        return says | {"unknown": body[4:].hex()}


def golden(path):
    for case in json.load(open(path, encoding="utf-8")):
        payload = case.get("payload") or write(KINDS[case["kind"]], case["message"]).hex()
        yield case, frame(case["kind"], case["sequence"], bytes.fromhex(payload), case.get("other_major", MAJOR))


def main(verb="read", path=None):
    if verb == "read":
        waiting = b""
        for chunk in iter(lambda: sys.stdin.buffer.read1(4096), b""):
            *whole, waiting = (waiting + chunk).split(b"\0")
            for says in filter(None, map(open_frame, filter(None, whole))):
                print(json.dumps(says), flush=True)
    elif verb == "hello":
        hello = {"Hello": {"version": {"major": MAJOR, "minor": MINOR}, "now": int(time.time() * 1000)}}
        sys.stdout.buffer.write(b"\0" + frame("C", 1, write("Command", hello)))
    elif verb == "check":
        cases = list(golden(path))
        wrong = [case["name"] for case, made in cases if made.hex() != case["frame"]]
        wrong += [case["name"] for case, made in cases if not open_frame(made[:-1]).items() <= case.items()]
        chain = [case["message"]["Portion"] for case, _ in cases if "of a hash chain" in case["name"]]
        wrong += ["the hash chain"] if len(chain) != 3 or broken(chain) else []
        sys.exit("wrong: " + ", ".join(wrong) if wrong else None)
    elif verb == "frames":
        rows = [json.dumps(case | {"frame": made.hex()}) for case, made in golden(path)]
        open(path, "w", encoding="utf-8").write("[\n" + ",\n".join(rows) + "\n]\n")
    else:
        sys.exit(__doc__)


if __name__ == "__main__":
    main(*sys.argv[1:])
