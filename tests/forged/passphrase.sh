# No core file of a process that reads a passphrase, and no passphrase in memory once the key
# is open.
python3 "$TESTS/forged/passphrase.py" "$M"
#> a core of one that asks for a passphrase: False
#> it waits: True - the passphrase is in its memory: False
