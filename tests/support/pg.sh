#!/bin/sh
# A PostgreSQL server of the test's own: a new cluster in a folder under /tmp, on a socket in it,
# started as somebody who is not root, and ended with whoever started it.
#   sh pg.sh start PID [PORT]    prints the folder; PID is whose end ends it, too
#   sh pg.sh stop FOLDER
#   sh pg.sh bin                 prints where its programs are
# With a port it listens on localhost as well, by TLS: certificates in FOLDER/tls.
set -eu

bin=
for pg_ctl in /usr/lib/postgresql/*/bin/pg_ctl; do
    [ ! -x "$pg_ctl" ] || bin=${pg_ctl%/*}
done
if [ -z "$bin" ]; then
    echo "no PostgreSQL server is installed: apt-get install postgresql" >&2
    exit 9
fi

# A server does not run as root.
as_nobody() {
    if [ "$(id -u)" = 0 ]; then
        (cd / && exec setpriv --reuid=nobody --regid=nogroup --clear-groups env -u LD_PRELOAD "$@")
    else
        (cd / && exec env -u LD_PRELOAD "$@")
    fi
}

make_certificates() {
    mkdir "$folder/tls"
    openssl req -x509 -newkey rsa:2048 -nodes -keyout "$folder/tls/ca.key" -out "$folder/tls/ca.crt" \
        -subj "/CN=Example CA" -days 2 2>/dev/null
    openssl req -newkey rsa:2048 -nodes -keyout "$folder/tls/server.key" -out "$folder/tls/server.csr" \
        -subj "/CN=localhost" 2>/dev/null
    printf 'subjectAltName=DNS:localhost\n' >"$folder/tls/ext"
    openssl x509 -req -in "$folder/tls/server.csr" -CA "$folder/tls/ca.crt" -CAkey "$folder/tls/ca.key" \
        -CAcreateserial -days 2 -extfile "$folder/tls/ext" -out "$folder/tls/server.crt" 2>/dev/null
    chmod 600 "$folder/tls/server.key"
}

start() {
    folder=$(mktemp -d /tmp/mistfold-pg-XXXXXX)
    options="-c listen_addresses= -c unix_socket_directories=$folder -c fsync=off -c shared_buffers=32MB"
    options="$options -c synchronous_commit=off -c max_connections=80 -c jit=off ${PG_OPTIONS:-}"
    chmod 755 "$folder"
    if [ -n "${2:-}" ]; then
        make_certificates
        options="$options -c listen_addresses=localhost -c port=$2 -c ssl=on"
        options="$options -c ssl_cert_file=$folder/tls/server.crt -c ssl_key_file=$folder/tls/server.key"
    fi
    [ "$(id -u)" != 0 ] || chown -R nobody "$folder"
    as_nobody "$bin/initdb" -D "$folder/data" -U admin -E UTF8 --locale=C.UTF-8 --no-sync -A trust \
        >"$folder.log" 2>&1 || { cat "$folder.log" >&2; exit 8; }
    printf 'local all all trust\nhostssl all all all scram-sha-256\n' | as_nobody tee "$folder/data/pg_hba.conf" >/dev/null
    as_nobody "$bin/pg_ctl" -D "$folder/data" -w -l "$folder/log" -o "$options" start >"$folder.log" 2>&1 ||
        { cat "$folder.log" "$folder/log" >&2; exit 8; }
    rm -f "$folder.log"
    # Whoever started it may be killed.
    (while kill -0 "$1" 2>/dev/null && [ -d "$folder" ]; do sleep 1; done
        [ ! -d "$folder" ] || stop "$folder") >/dev/null 2>&1 </dev/null &
    echo "$folder"
}

stop() {
    case $1 in /tmp/mistfold-pg-*) ;; *) exit 7 ;; esac
    as_nobody "$bin/pg_ctl" -D "$1/data" -m immediate stop >/dev/null 2>&1 || true
    rm -rf "$1"
}

case $1 in
start) start "$2" "${3:-}" ;;
stop) stop "$2" ;;
bin) echo "$bin" ;;
esac
