"""A time-stamping authority for tests, on 127.0.0.1 alone: openssl signs, and the last
part of the address says in which way the reply is to be wrong.

usage: tsa.py FOLDER   makes certificates in FOLDER/tsa (root.pem, tsa.pem, other.pem), writes
                       its address to FOLDER/tsa/url and serves until it is ended
"""
import http.server
import os
import subprocess
import sys
import time

CONFIG = """[tsa]
default_tsa = it
[it]
serial = serial
default_policy = 1.2.3.4.1
other_policies = 1.2.3.4.5
digests = sha256, sha384, sha512
accuracy = secs:1
ess_cert_id_chain = yes
ess_cert_id_alg = sha256
signer_digest = sha256
[fit]
basicConstraints = CA:false
extendedKeyUsage = critical,timeStamping
[unfit]
basicConstraints = CA:false
extendedKeyUsage = critical,clientAuth
[root]
basicConstraints = critical,CA:true
keyUsage = critical,keyCertSign
[ca]
default_ca = of
[of]
database = index
serial = ca.serial
new_certs_dir = .
default_md = sha256
policy = any
[any]
commonName = supplied
[req]
distinguished_name = name
[name]
"""
EC = ["-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes"]
TST = "1.2.840.113549.1.9.16.1.4"


def openssl(*words, given=None):
    done = subprocess.run(["openssl", *words], input=given, capture_output=True)
    if done.returncode != 0:
        raise RuntimeError(f"openssl {words}: {done.stderr.decode()}")
    return done.stdout


def root(name, who):
    openssl("req", "-x509", *EC, "-subj", f"/CN={who}", "-keyout", f"{name}.key", "-out",
            f"{name}.pem", "-days", "3650", "-config", "config", "-extensions", "root")


def issue(name, who, by, kind, begin="20200101000000Z", end="20491231235959Z"):
    openssl("req", *EC, "-subj", f"/CN={who}", "-keyout", f"{name}.key", "-out", f"{name}.csr",
            "-config", "config")
    openssl("ca", "-batch", "-config", "config", "-cert", f"{by}.pem", "-keyfile", f"{by}.key",
            "-in", f"{name}.csr", "-out", f"{name}.pem", "-extensions", kind, "-notext",
            "-startdate", begin, "-enddate", end)


def make_aged(name, who):
    """A root that has expired."""
    root(name, who)
    openssl("req", "-new", "-key", f"{name}.key", "-subj", f"/CN={who}", "-out", f"{name}.csr",
            "-config", "config")
    openssl("ca", "-batch", "-config", "config", "-selfsign", "-keyfile", f"{name}.key", "-in",
            f"{name}.csr", "-out", f"{name}.pem", "-extensions", "root", "-notext",
            "-startdate", "20200101000000Z", "-enddate", "20210101000000Z")


def make(folder):
    os.makedirs(folder, exist_ok=True)
    os.chdir(folder)
    for name, text in (("config", CONFIG), ("serial", "0A01"), ("index", ""), ("ca.serial", "1001")):
        open(name, "w", encoding="ascii").write(text)
    root("root", "Invented Root")
    root("other", "Other Invented Root")
    issue("tsa", "Invented Time Authority", "root", "fit")
    issue("expired", "Expired Time Authority", "root", "fit", end="20210101000000Z")
    issue("unfit", "No Time Authority", "root", "unfit")
    issue("stranger", "Unknown Time Authority", "other", "fit")
    make_aged("aged", "Expired Invented Root")
    issue("of-aged", "Orphaned Time Authority", "aged", "fit")


def reply(query, by="tsa"):
    open("q", "wb").write(query)
    return openssl("ts", "-reply", "-config", "config", "-queryfile", "q", "-inkey", f"{by}.key",
                   "-signer", f"{by}.pem")


def der(tag, body):
    n = len(body)
    size = bytes([n]) if n < 128 else bytes([0x82, n >> 8, n & 255])
    return bytes([tag]) + size + body


def granted(token):
    return der(0x30, der(0x30, b"\x02\x01\x00") + token)


def info_of(answer):
    """What the authority signs (TSTInfo), out of a reply."""
    token = openssl("ts", "-reply", "-in", "/dev/stdin", "-token_out", given=answer)
    return openssl("cms", "-verify", "-noverify", "-inform", "DER", given=token)


def signed(info, by, *more):
    """A token as openssl ts would refuse to make it."""
    return granted(openssl("cms", "-sign", "-binary", "-nodetach", "-nosmimecap", "-cades", "-md",
                           "sha256", "-econtent_type", TST, "-signer", f"{by}.pem", "-inkey",
                           f"{by}.key", "-outform", "DER", *more, given=info))


def answer(kind, query):
    at = query.find(bytes.fromhex("0420")) + 2  # the imprint, an OCTET STRING of 32
    if kind == "wrong-imprint":
        query = query[:at] + bytes(32) + query[at + 32:]
    if kind == "wrong-nonce":  # follows the imprint
        query = query[:at + 34] + bytes([query[at + 34] ^ 1]) + query[at + 35:]
    if kind == "no-nonce":
        return signed(without_nonce(info_of(reply(query)), query[at + 32:at + 42]), "tsa")
    if kind in ("expired", "stranger", "of-aged"):
        return reply(query, kind)
    if kind == "unfit":
        return signed(info_of(reply(query)), "unfit")
    good = reply(query)
    if kind == "altered":  # a bit of the signature, which stands last
        return good[:-5] + bytes([good[-5] ^ 1]) + good[-4:]
    if kind == "truncated":
        return good[:len(good) // 2]
    if kind == "refused":
        return der(0x30, der(0x30, b"\x02\x01\x02" + der(0x30, der(0x0c, b"not today\x1b[2J"))))
    return good


def without_nonce(info, nonce):
    at = info.find(nonce)
    body = info[4 if info[1] & 0x80 and info[1] == 0x82 else 3 if info[1] == 0x81 else 2:]
    at = body.find(nonce)
    return der(0x30, body[:at] + body[at + len(nonce):])


class Authority(http.server.BaseHTTPRequestHandler):
    def log_message(self, *words):
        pass

    def send(self, code, body, **more):
        self.send_response(code)
        self.send_header("Content-Type", "application/timestamp-reply")
        self.send_header("Content-Length", str(len(body)))
        for name, value in more.items():
            self.send_header(name, value)
        self.end_headers()
        self.wfile.write(body)

    def do_POST(self):
        kind = self.path.strip("/")
        query = self.rfile.read(int(self.headers["Content-Length"]))
        assert self.headers["Content-Type"] == "application/timestamp-query"
        try:
            if kind == "slow":
                time.sleep(20)
            elif kind == "huge":
                self.send(200, bytes(10 * 1024 * 1024))
            elif kind == "error":
                self.send(503, b"later")
            elif kind == "redirect":
                self.send(302, b"", Location="/good")
            elif kind == "page":
                self.send(200, b"<html>Please accept our terms</html>")
            elif kind == "empty":
                self.send(200, b"")
            elif kind == "cut":
                self.send(200, answer("good", query)[:-3], **{"X-Cut": "1"})
            else:
                self.send(200, answer(kind, query))
        except (BrokenPipeError, ConnectionResetError):
            pass


def main():
    make(os.path.join(sys.argv[1], "tsa"))
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Authority)
    server.daemon_threads = True
    with open("url.new", "w", encoding="ascii") as file:
        file.write(f"http://127.0.0.1:{server.server_address[1]}/")
    os.rename("url.new", "url")
    server.serve_forever()


main()
