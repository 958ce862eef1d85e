/* A served book, asked by curl on this computer: what the invited person gets, and what lists
 * of attacks on web servers suggest to try. What is expected follows from the design; all
 * constructed. */
#include "support/shell_kit.h"

#include <stdio.h>

static int set_up(void **state)
{
    (void)state;
    run_folder(folder);
    run("sh " MF_SAMPLE "/demo.sh out > log 2>&1 && cp out/demo.book fresh.book");
    return r.status;
}

static int fresh(void **state)
{
    (void)state;
    run("rm -f out/demo.book out/demo.book-* && cp fresh.book out/demo.book");
    return r.status;
}

/* Runs a script in which the functions of serve_kit.sh are known; it must end well. */
static void script(const char *text)
{
    static char whole[6000];
    snprintf(whole, sizeof whole,
             "export FORGED=" MF_TESTS "/forged/books; . " MF_TESTS "/cli/serve_kit.sh\n%s", text);
    run(whole);
    if (r.status != 0)
        fail_msg("%s\n%s%s", text, r.out, r.err);
}

/* Runs it and compares what it prints. */
static void prints(const char *text, const char *wanted)
{
    script(text);
    if (strcmp(r.out, wanted) != 0)
        fail_msg("%s\nprints:\n%s%s\nnot:\n%s", text, r.out, r.err, wanted);
}

/* ---- what the invited person gets ------------------------------------------------------ */

static void the_way_of_one_who_is_invited(void **state)
{
    (void)state;
    script("invite J-1926 rosa; serve; phone a.entries J-1926 phone rosa handover \"$HANDOVER\"\n"
           "ask /new/J-1926; by $T /page/J-1926; grep -c '<html' body\n"
           "hand $T J-1926 a.entries; grep -o '\"added\":[0-9]*' body\n"
           "hand $T J-1926 a.entries; grep -o '\"added\":[0-9]*' body\n"
           "grep -o '\"device\":\"phone\",\"seq\":1\\|\"seq\":1' body\n"
           "kill $server; wait $server; echo $?; M book check | grep faults");
    says("200\n200\n1\n200\n\"added\":1\n200\n\"added\":0\n");
    says("\"seq\":1\n0\nfaults    0\n");
}

static void an_answer_has_its_headers(void **state)
{
    (void)state;
    prints("invite J-1926 rosa; serve\n"
           "for path in /new/J-1926 /boot.js /page/J-1926 /nothing; do\n"
           "  by $T $path >/dev/null; tr -d '\\r' <head | grep -ciE '^(cache-control: no-store|"
           "x-content-type-options: nosniff|x-frame-options: deny|referrer-policy: no-referrer|"
           "cross-origin-opener-policy: same-origin|cross-origin-resource-policy: same-origin|"
           "content-security-policy: default-src .none.;.*)'\n"
           "  grep -ci '^set-cookie\\|^access-control\\|^server:' head; done; exit 0",
           "7\n0\n7\n0\n7\n0\n7\n0\n");
    script("invite J-1926 rosa; serve; by $T /page/J-1926; grep -ci unsafe-inline head; exit 0");
    says("200\n0\n");
}

/* Neither the token, nor a name, an address, or a job. */
static void what_is_written_down(void **state)
{
    (void)state;
    script("invite J-1926 rosa; serve; by $T /page/J-1926; by ${T}x /page/J-1926\n"
           "phone a.entries J-1926 phone rosa handover \"$HANDOVER\"; hand $T J-1926 a.entries\n"
           "cut -c 23- serve.log | tail -n +2\n"
           "cat serve.log serve.err | grep -c -e \"$T\\|rosa\\|127.0.0.1\\|J-1926\"\n"
           "strings -a out/demo.book out/demo.book-wal | grep -c -e \"$T\"; exit 0");
    says("200  page\n401  refused\n200  entries, 1 new\n0\n0\n");
}

/* ---- who may not ------------------------------------------------------------------------- */

static void without_an_invitation(void **state)
{
    (void)state;
    prints("invite J-1926 rosa; serve; phone a.entries J-1926 phone rosa handover \"$HANDOVER\"\n"
           "ask /page/J-1926; by none /page/J-1926; hand none J-1926 a.entries\n"
           "ask \"/page/J-1926?token=$T\"; ask /page/J-1926 -b \"token=$T\" -u \"rosa:$T\"\n"
           "by $T /page/J-9; by $T /page/J-1\n"
           "M entry list J-1926 | grep -c phone/; exit 0",
           "401\n401\n401\n404\n401\n401\n401\n0\n");
}

static void taken_back_while_it_is_served(void **state)
{
    (void)state;
    prints("invite J-1926 rosa; serve; by $T /page/J-1926\n"
           "id=$(M entry list J-1926 | sed -n 's/^\\([^ ]*\\) .*invitation.*/\\1/p')\n"
           "M entry withdraw $id --reason 'phone lost' >/dev/null; by $T /page/J-1926",
           "200\n401\n");
}

static void in_the_name_of_another(void **state)
{
    (void)state;
    prints("invite J-1926 ines; serve; phone a.entries J-1926 phone rosa handover \"$HANDOVER\"\n"
           "hand $T J-1926 a.entries; grep -o 'made by rosa, who was not the one invited' body\n"
           "M entry list J-1926 | grep -c 'phone/'; exit 0",
           "422\nmade by rosa, who was not the one invited\n0\n");
}

/* A token of one job opens no other, in the path or in the file. */
static void for_another_job(void **state)
{
    (void)state;
    prints("M job open --id J-2 --address B --building dwelling --owner-occupied yes --work repair "
           "--description d --start 2026-12-14 >/dev/null\n"
           "invite J-1926 rosa; serve; phone a.entries J-2 phone rosa party "
           "'{\"id\":\"o\",\"name\":\"O\",\"role\":\"owner\"}'\n"
           "hand $T J-2 a.entries; hand $T J-1926 a.entries\n"
           "grep -o 'it is of the job J-2, not of J-1926' body",
           "401\n422\nit is of the job J-2, not of J-1926\n");
}

static void an_invitation_by_a_phone(void **state)
{
    (void)state;
    prints(
        "invite J-1926 rosa; serve; phone a.entries J-1926 phone rosa invitation "
        "'{\"person\":\"rosa\",\"token_sha256\":\"00\",\"until_day\":\"2099-01-01\"}'\n"
        "hand $T J-1926 a.entries; grep -o 'it invites somebody' body\n"
        "phone b.entries J-1926 phone rosa correction '{\"kind\":\"invitation\",\"reason\":\"r\","
        "\"replaces\":\"'$I'\",\"target\":\"'$I'\"}'\n"
        "hand $T J-1926 b.entries; grep -o 'it changes what only the book says' body",
        "422\nit invites somebody\n422\nit changes what only the book says\n");
}

/* Somebody adds an invitation to the file by another program: the book is altered. */
static void an_invitation_put_into_the_file(void **state)
{
    (void)state;
    prints("invite J-1926 rosa; serve; by $T /page/J-1926\n"
           "sqlite3 out/demo.book \"DROP TRIGGER entry_no_update; UPDATE entry SET body = "
           "replace(body, '\\\"person\\\":\\\"rosa\\\"', '\\\"person\\\":\\\"ines\\\"') "
           "WHERE kind = 'invitation'\"; by $T /page/J-1926",
           "200\n401\n");
}

static void guessing(void **state)
{
    (void)state;
    prints("invite J-1926 rosa; serve; for i in 1 2 3 4 5 6 7 8 9 10; do by "
           "AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA$i /page/J-1926; done | sort | uniq -c | "
           "tr -d ' '; by $T /page/J-1926; tr -d '\\r' <head | grep -i ^retry-after",
           "10401\n429\nRetry-After: 60\n");
}

/* ---- from elsewhere ------------------------------------------------------------------------ */

static void another_site(void **state)
{
    (void)state;
    prints("invite J-1926 rosa; serve; phone a.entries J-1926 phone rosa handover \"$HANDOVER\"\n"
           "by $T /page/J-1926 -H 'Host: evil.example'; by $T /page/J-1926 -H 'Host:'\n"
           "by $T /page/J-1926 -H 'Origin: http://evil.example'; by $T /page/J-1926 -H "
           "'Origin: null'; by $T /page/J-1926 -H 'Sec-Fetch-Site: cross-site'\n"
           "hand $T J-1926 a.entries -H 'Origin: http://evil.example'\n"
           "ask /entries/J-1926 -X OPTIONS -H 'Origin: http://evil.example' -H "
           "'Access-Control-Request-Method: POST'; ask /entries/J-1926 -X OPTIONS\n"
           "by $T /entries/J-1926 --data-binary @a.entries; by $T /entries/J-1926 -H "
           "'Content-Type: text/plain' --data-binary @a.entries\n"
           "M entry list J-1926 | grep -c phone/; exit 0",
           "421\n400\n403\n403\n403\n403\n403\n405\n415\n415\n0\n");
}

static void odd_paths(void **state)
{
    (void)state;
    prints("invite J-1926 rosa; serve; for p in / /../etc/passwd /page/../firm.book /page/%2e%2e "
           "/field/J-1926/.. //field/J-1926 /field/J-1926%00 /field/J-1926%0d%0aX:y /.git/config; "
           "do by $T $p; done | sort | uniq -c | tr -d ' '",
           "9404\n");
}

static void odd_methods_and_headers(void **state)
{
    (void)state;
    prints(
        "invite J-1926 rosa; serve; for m in PUT DELETE TRACE PATCH; do by $T /page/J-1926 -X $m; "
        "done; by $T /page/J-1926 -H \"Authorization: Bearer $T\"; by $T /page/J-1926 -I\n"
        "by $T /page/J-1926 -H 'X-HTTP-Method-Override: POST' -H 'X-Forwarded-Host: evil'",
        "405\n405\n405\n405\n400\n200\n200\n");
}

/* ---- bodies -----------------------------------------------------------------------------------
 */

static void odd_bodies(void **state)
{
    (void)state;
    prints("invite J-1926 rosa; serve; phone a.entries J-1926 phone rosa handover \"$HANDOVER\"\n"
           "hand $T J-1926 a.entries -H 'Transfer-Encoding: chunked'\n"
           "hand $T J-1926 a.entries -H 'Content-Encoding: gzip'\n"
           "by $T /entries/J-1926 -X POST -H \"$TYPE\" -H 'Content-Length: 99999999'\n"
           "hand $T J-1926 /dev/null; sed 's/by hand/by mail/' a.entries >b.entries\n"
           "hand $T J-1926 b.entries; grep -o 'its text does not give its hash' body\n"
           "head -c 100000 /dev/urandom >c.entries; hand $T J-1926 c.entries\n"
           "hand $T J-1926 a.entries; grep -o '\"added\":1' body",
           "411\n411\n413\n422\n422\nits text does not give its hash\n422\n200\n\"added\":1\n");
}

/* Two lengths, or a length and pieces: what one server takes for the end of a request another
 * takes for a second one. */
static void smuggled_requests(void **state)
{
    (void)state;
    script(
        "invite J-1926 rosa; serve; H=\"Host: localhost:$port\\r\\nAuthorization: Bearer $T\\r\\n"
        "$TYPE\\r\\n\"\n"
        "raw \"POST /entries/J-1926 HTTP/1.1\\r\\n${H}Content-Length: 4\\r\\nTransfer-Encoding: "
        "chunked\\r\\n\\r\\n0\\r\\n\\r\\n\"\n"
        "raw \"POST /entries/J-1926 HTTP/1.1\\r\\n${H}Content-Length: 4\\r\\nContent-Length: "
        "5\\r\\n\\r\\nabcde\"\n"
        "raw \"GET /page/J-1926 HTTP/1.1\\r\\nAuthorization: Bearer $T\\r\\n\\r\\n\"\n"
        "raw \"GET http://localhost:$port/page/J-1926 HTTP/1.1\\r\\n${H}\\r\\n\"\n"
        "raw \"\\001\\002\\003\\r\\n\\r\\n\"; by $T /page/J-1926");
    says_not("HTTP/1.1 200");
    says("HTTP/1.1 411 Length Required\nHTTP/1.1 400 Bad Request\nHTTP/1.1 400 Bad Request\n"
         "HTTP/1.1 404 Not Found\nclosed\n200\n");
}

static void long_heads_and_slow_callers(void **state)
{
    (void)state;
    script("invite J-1926 rosa; serve; by $T /page/J-1926 -H \"X: $(head -c 60000 /dev/zero | tr "
           "'\\0' a)\"; by $T \"/page/$(head -c 50000 /dev/zero | tr '\\0' a)\"\n"
           "python3 -c \"\n"
           "import socket, time, subprocess\n"
           "held = [socket.create_connection(('127.0.0.1', $port)) for i in range(20)]\n"
           "for s in held: s.sendall(b'POST /entries/J-1926 HTTP/1.1\\r\\nHost: localh')\n"
           "time.sleep(0.2)\n"
           "begun = time.time()\n"
           "code = subprocess.run(['curl', '-s', '-m', '5', '-o', 'body', '-w', '%{http_code}', "
           "'-H', 'Authorization: Bearer $T', 'http://127.0.0.1:$port/page/J-1926'], "
           "capture_output=True, text=True).stdout\n"
           "print('slow', code, time.time() - begun < 3)\"");
    says("slow 200 True\n");
}

/* ---- how it is started --------------------------------------------------------------------- */

static void certificates(void **state)
{
    (void)state;
    script(
        "openssl req -x509 -newkey ec -pkeyopt ec_paramgen_curve:P-256 -nodes -days 2 -subj "
        "/CN=localhost -addext subjectAltName=DNS:localhost -keyout k.pem -out c.pem 2>/dev/null\n"
        "invite J-1926 rosa --url https://localhost:8745; serve --certificate c.pem --key k.pem "
        "--name localhost\n"
        "by $T /page/J-1926 --cacert c.pem; grep -ci ^strict-transport head\n"
        "by $T /page/J-1926 --cacert c.pem -H \"Host: 127.0.0.1:$port\"\n"
        "by $T /page/J-1926; by $T /page/J-1926 --cacert c.pem --tls-max 1.1 --ciphers "
        "DEFAULT@SECLEVEL=0; B=http://localhost:$port; by $T /page/J-1926; exit 0");
    says("200\n1\n421\n000\ncurl 60\n000\n");
    says_not("\n200\n200");
}

static void refused_at_the_start(void **state)
{
    static const struct {
        const char *options, *says;
        int status;
    } rows[] = {
        {"--address 0.0.0.0", "others reach this address", 2},
        {"--address ::", "others reach this address", 2},
        {"--address localhost", "others reach this address", 2},
        {"--certificate c.pem", "one of certificate and key is missing", 2},
        {"--certificate c.pem --key k.pem", "the name in the certificate is missing", 2},
        {"--certificate out/summary.pdf --key out/summary.pdf --name x",
         "the server cannot be started with them", 3},
        {"--port x", "x is not a port", 3},
        {"--port 65536", "65536 is not a port", 3},
        {"--certificate nowhere --key nowhere --name x", "nowhere", 3},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char command[300];
        snprintf(command, sizeof command,
                 "touch c.pem k.pem; timeout 5 $MISTFOLD --book out/demo.book field serve %s",
                 rows[i].options);
        run(command);
        if (r.status != rows[i].status)
            print_error("%s: %d %s\n", rows[i].options, r.status, r.err);
        assert_int_equal(r.status, rows[i].status);
        notes(rows[i].says);
    }
    script("serve; M field serve --port $port; echo $?; exit 0");
    says("4\n");
    notes("is taken");
}

/* ---- inviting ------------------------------------------------------------------------------ */

static void an_invitation(void **state)
{
    (void)state;
    script(
        "M field invite J-1926 --person rosa --until 2099-01-31 --url https://field.example "
        "--qr q.png >said; cat said; stat -c %a q.png; zbarimg -q --raw q.png 2>/dev/null >code; "
        "grep -c -F \"$(cat code)\" said; M entry show \"$(sed -n 's/^logged "
        "invitation \\([^,]*\\),.*/\\1/p' said)\" | grep -c 2099-01-31");
    says("https://field.example/new/J-1926#");
    says("logged invitation office/");
    says(", through 2099-01-31\n");
    says("600\n1\n1\n");
}

static void no_invitation(void **state)
{
    static const char *const rows[][2] = {
        {"J-9 --person rosa", "there is no job J-9"},
        {"J-1926 --person eve", "there is no person eve"},
        {"J-1926 --person rosa --until 2001-01-01", "2001-01-01 is over"},
        {"J-1926 --person rosa --until soon", "soon is not a date"},
        {"J-1926 --person rosa --url http://field.example", "for all to read"},
        {"J-1926 --person rosa --url field.example", "is not the address of a server"},
        {"J-1926 --person rosa --url 'https://a/b'", "is not the address of a server"},
        {"J-1926 --person rosa --url https://", "is not the address of a server"},
        {"J-1926 --person rosa --qr out/demo.book", "a book stands there"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char command[300];
        snprintf(command, sizeof command,
                 "$MISTFOLD --book out/demo.book --by rosa field invite %s", rows[i][0]);
        run(command);
        assert_int_not_equal(r.status, 0);
        notes(rows[i][1]);
        assert_string_equal(r.out, "");
    }
    run("$MISTFOLD --book out/demo.book entry list J-1926 | grep -c invitation");
    says("0\n");
}

#define T(name) cmocka_unit_test_setup(name, fresh)
int main(void)
{
    const struct CMUnitTest tests[] = {
        T(the_way_of_one_who_is_invited),
        T(an_answer_has_its_headers),
        T(what_is_written_down),
        T(without_an_invitation),
        T(taken_back_while_it_is_served),
        T(in_the_name_of_another),
        T(for_another_job),
        T(an_invitation_by_a_phone),
        T(an_invitation_put_into_the_file),
        T(guessing),
        T(another_site),
        T(odd_paths),
        T(odd_methods_and_headers),
        T(odd_bodies),
        T(smuggled_requests),
        T(long_heads_and_slow_callers),
        T(certificates),
        T(refused_at_the_start),
        T(an_invitation),
        T(no_invitation),
    };
    return cmocka_run_group_tests(tests, set_up, shell_stop);
}
