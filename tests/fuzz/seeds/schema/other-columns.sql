DROP TABLE content; CREATE TABLE content(bytes, sha256, x); INSERT INTO content VALUES(1,2,3);
