/* serve_page.c - the page of a job in one file: the job's entries to save on the phone, and the
 * way back for a file of entries. */
#include "base/base64.h"
#include "base/fail.h"
#include "cli/serve.h"

static const char start[] =
    "<!doctype html>\n"
    "<html lang=\"en\">\n"
    "<meta charset=\"utf-8\">\n"
    "<meta name=\"viewport\" content=\"width=device-width\">\n"
    "<title>mistfold</title>\n"
    "<style>body{font:1.2rem sans-serif;margin:1rem;max-width:40rem}"
    "input,button{font:inherit;min-height:48px;max-width:100%}</style>\n"
    "<h1 id=\"job\"></h1>\n"
    "<p><button id=\"save\">Save the job's entries / Guardar los registros</button></p>\n"
    "<p><label>Hand over a file of entries / Entregar un archivo de registros<br>\n"
    "<input id=\"file\" type=\"file\" accept=\".entries\"></label></p>\n"
    "<p id=\"said\" role=\"status\"></p>\n"
    "<script id=\"entries\" type=\"" MF_SERVE_TYPE "\">";

static const char rest[] =
    "</script>\n"
    "<script>\n"
    "'use strict';\n"
    "const of = id => document.getElementById(id);\n"
    "const job = location.pathname.split('/').pop();\n"
    "of('job').textContent = job;\n"
    "of('save').onclick = () => {\n"
    "  const bytes = Uint8Array.from(atob(of('entries').textContent), c => c.charCodeAt(0));\n"
    "  const a = document.createElement('a');\n"
    "  a.href = URL.createObjectURL(new Blob([bytes]));\n"
    "  a.download = job + '.entries';\n"
    "  a.click();\n"
    "};\n"
    "of('file').onchange = async () => {\n"
    "  const token = localStorage.getItem('mistfold.token.' + job);\n"
    "  try {\n"
    "    const answer = await fetch('/entries/' + job, {\n"
    "      method: 'POST', credentials: 'omit', body: await of('file').files[0].arrayBuffer(),\n"
    "      headers: { Authorization: 'Bearer ' + token, 'Content-Type': '" MF_SERVE_TYPE "' }\n"
    "    });\n"
    "    of('said').textContent = await answer.text();\n"
    "  } catch (e) {\n"
    "    of('said').textContent = 'Not reached; nothing was sent. / No se envi\\u00f3 nada.';\n"
    "  }\n"
    "};\n"
    "</script>\n"
    "</html>\n";

/* The page around the entries, in base64: no sign of theirs can end their element. */
static mf_status around(const mf_bytes *entries, mf_bytes *out, mf_err *err)
{
    mf_buf html = {0};
    mf_buf_text(&html, start);
    mf_base64_put(&html, entries->data, entries->len);
    mf_buf_text(&html, rest);
    mf_status status = html.failed ? mf_fail_memory(err) : MF_OK;
    if (status == MF_OK)
        mf_buf_take(&html, out);
    mf_buf_free(&html);
    return status;
}

mf_status mf_serve_template(mf_bytes *out, mf_err *err)
{
    const mf_bytes none = {0};
    return around(&none, out, err);
}

mf_status mf_serve_page(mf_cli *cli, const char *job, mf_bytes *out, mf_err *err)
{
    mf_bytes file = {0};
    mf_status status = mf_book_export_entries(cli->book, job, cli->at, &file, err);
    if (status == MF_OK)
        status = around(&file, out, err);
    mf_bytes_free(&file);
    return status;
}
