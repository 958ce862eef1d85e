DROP TABLE place; CREATE VIEW place AS SELECT * FROM entry; DROP VIEW reading; CREATE TABLE reading(x); UPDATE meta SET value='x' WHERE key='derived';
