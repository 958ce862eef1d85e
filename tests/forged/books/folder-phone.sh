# ... with that of a phone, which has none.
#= 1
#> not accepted @phone/2 to 2@the chain of phone is not signed
meet_first
phone a.entries J-1926 phone rosa handover '{"day":"2026-09-22","how":"by hand","party":"owner","what":"record"}'
quietly M entry import a.entries
quietly meet demo
quietly meet truck
quietly M book copy --no-key eve.book --device eve
sqlite3 eve.book "UPDATE meta SET value = 'phone' WHERE key = 'device'"
quietly "$MISTFOLD" --book eve.book --by rosa opening add J-1926 --id W77 --kind window --room hall --elevation north
segment eve.book phone 2 share phone
meet truck
