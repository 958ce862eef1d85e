DELETE FROM meta; INSERT INTO meta VALUES('device', printf('%.*c', 5000, 'x')); INSERT INTO meta VALUES('derived', 7);
