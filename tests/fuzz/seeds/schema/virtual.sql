DROP TABLE content; CREATE VIRTUAL TABLE content USING fts5(sha256, bytes); INSERT INTO content VALUES('a','b');
