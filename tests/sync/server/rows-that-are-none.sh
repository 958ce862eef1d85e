# Rows without what is around them; a text that is no JSON; another's words in between.
firm; opening truck W1; mkdir o; python3 $FORGED/segment.py truck.book truck 2 o truck
python3 $PUT truck 1 o/truck/* --without-segment
answer 1 'does not hand it out' meet office; grep -q '^waits  *truck/2 to 2' said
answer 0 'taken over' meet truck
chain() { sql truck "WITH p AS (SELECT * FROM mistfold.entry WHERE device = 'truck' ORDER BY seq DESC LIMIT 1) INSERT INTO mistfold.entry SELECT firm, device, seq + 1, at, who, kind, job, '$1', sha256(convert_to('{\"at\":' || to_json(at) || ',\"body\":$1,\"device\":\"truck\",\"job\":' || to_json(job) || ',\"kind\":' || to_json(kind) || ',\"prev\":\"' || encode(hash, 'hex') || '\",\"seq\":' || seq + 1 || ',\"who\":' || to_json(who) || '}', 'UTF8')) FROM p"; }
if chain 'no json' 2>said; then exit 9; fi; grep -q 'invalid input syntax for type json' said
if chain '[1]' 2>said; then exit 9; fi; grep -q 'does not follow' said
chain '{"id":"W5"}'; [ "$(sql truck 'SELECT max(seq) FROM mistfold.head')" -ge 3 ]
answer 1 'does not hand it out' meet office
