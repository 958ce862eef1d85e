DROP TABLE meta; CREATE TABLE meta(key, value AS (CASE key WHEN 'device' THEN printf('%.*c', 5000, 'x') ELSE key END));INSERT INTO meta(key) VALUES('device');
