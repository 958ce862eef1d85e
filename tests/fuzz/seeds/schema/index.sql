CREATE INDEX odd ON entry(abs(seq) + length(body)) WHERE body LIKE '%a%'; CREATE UNIQUE INDEX odd2 ON content(length(bytes));
