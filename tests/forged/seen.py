"""Says which characters of standard input a terminal would not show as they are, and which
bytes are no UTF-8; nothing when there are none."""
import sys
import unicodedata

data = sys.stdin.buffer.read()
text = data.decode("utf-8", "surrogateescape")
bad = sorted({f"U+{ord(c):04X}" for c in text if unicodedata.category(c) in ("Cc", "Cf", "Cs") and c not in "\r\n\t"})
if bad:
    print("SHOWN RAW:", *bad)
