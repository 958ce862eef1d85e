DROP TABLE reading; CREATE VIEW reading AS SELECT * FROM entry; UPDATE meta SET value='x' WHERE key='derived';
