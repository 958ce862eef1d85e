# The firm of kit.sh at a server: PG is the folder of its socket (pg.sh). Each script has a database
# of its own, made like the one that "mistfold sync --init" filled; test_postgres.c says when.
place() { echo "postgresql://$1@/firm?host=$PG"; }
sql() { # LOGIN SQL ...
    login=$1
    shift
    "$PG_BIN/psql" -XqAt -v ON_ERROR_STOP=1 -h "$PG" -U "$login" firm -c "$*"
}
admin() { sql admin "$@"; }
refused() { # TEXT LOGIN SQL: the server refuses it and says so
    text=$1
    shift
    if sql "$@" >said 2>&1; then
        echo "it was not refused: $*"
        exit 96
    fi
    grep -qF -- "$text" said || { echo "\"$text\" is not in:"; cat said; exit 97; }
}
lists() { # BOOK WORD
    M "$1" opening list J-7 >list || exit 94
    grep -q "$2" list
}
# The store as sync --init makes it, and the logins of the firm; once a server.
prepare() {
    "$PG_BIN/createdb" -h "$PG" -U admin store
    "$MISTFOLD" sync --init | "$PG_BIN/psql" -Xq -v ON_ERROR_STOP=1 -h "$PG" -U admin store
    "$PG_BIN/psql" -Xq -v ON_ERROR_STOP=1 -h "$PG" -U admin store <<'END'
INSERT INTO mistfold.firm (name) VALUES ('Example Windows'), ('Other Example');
CREATE ROLE office LOGIN IN ROLE mistfold_device;
CREATE ROLE truck LOGIN IN ROLE mistfold_device;
CREATE ROLE paul LOGIN IN ROLE mistfold_device;
CREATE ROLE other LOGIN IN ROLE mistfold_device;
CREATE ROLE desk LOGIN IN ROLE mistfold_office;
CREATE ROLE stranger LOGIN;
INSERT INTO mistfold.device (firm, device, login, relay) VALUES
  (1, 'office', 'office', true), (1, 'truck', 'truck', false), (1, 'paul', 'paul', false),
  (2, 'other', 'other', true);
INSERT INTO mistfold.reader (login, firm) VALUES ('desk', 1);
END
}
fresh() {
    "$PG_BIN/dropdb" -h "$PG" -U admin --if-exists --force firm
    "$PG_BIN/createdb" -h "$PG" -U admin -T store firm
}
