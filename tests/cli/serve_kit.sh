# A served book for tests: source this in a folder that has out/demo.book. Ends the server with
# the shell. On this computer alone.
M() { "$MISTFOLD" --book out/demo.book --by rosa "$@"; }
invite() { # JOB PERSON [OPTION ...]: the token goes to $T, the entry to $I
    job=$1 person=$2
    shift 2
    M field invite "$job" --person "$person" "$@" --json > invited
    T=$(sed -n 's/.*#\([A-Za-z0-9_-]*\)".*/\1/p' invited)
    I=$(sed -n 's/.*"entry": "\([^"]*\)".*/\1/p' invited)
}
serve() { # [OPTION ...]: its address goes to $B
    rm -f serve.log serve.err
    "$MISTFOLD" --book out/demo.book field serve --port 0 "$@" >serve.log 2>serve.err &
    server=$!
    trap 'kill $server 2>/dev/null' EXIT
    tries=0
    until grep -qs serving serve.log; do
        tries=$((tries + 1))
        [ "$tries" -lt 200 ] && kill -0 "$server" 2>/dev/null || { cat serve.err; exit 1; }
        sleep 0.1
    done
    B=$(sed -n 's/^serving \(.*\); Ctrl-C.*/\1/p' serve.log)
    port=${B##*:}
}
ask() { # PATH [CURL OPTION ...]: prints the code, the body is in "body"
    path=$1
    shift
    curl -s -m 20 --path-as-is -o body -D head -w '%{http_code}\n' "$@" "$B$path" || echo "curl $?"
}
by() { # TOKEN PATH [CURL OPTION ...]
    token=$1 asked=$2
    shift 2
    ask "$asked" -H "Authorization: Bearer $token" "$@"
}
TYPE='Content-Type: application/vnd.mistfold.entries'
hand() { # TOKEN JOB FILE [CURL OPTION ...]
    whose=$1 of=$2 file=$3
    shift 3
    by "$whose" "/entries/$of" -H "$TYPE" --data-binary "@$file" "$@"
}
raw() { # TEXT (printf): what a server says to those very bytes, its first line
    printf "$1" | python3 -c "
import socket, sys
s = socket.create_connection(('127.0.0.1', $port))
s.settimeout(5)
s.sendall(sys.stdin.buffer.read())
try: print(s.recv(4000).split(b'\r\n')[0].decode() or 'closed')
except TimeoutError: print('no answer')
except OSError: print('closed')"
}
phone() { python3 "$FORGED/entries.py" "$@"; }
HANDOVER='{"day":"2026-09-22","how":"by hand","party":"owner","what":"record"}'
