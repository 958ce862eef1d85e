/* mistfold/qr.h - a QR code that a phone reads (ISO/IEC 18004), for a terminal and as
 * a picture. Error correction M; four light modules around it, as the standard asks. */
#ifndef MISTFOLD_QR_H
#define MISTFOLD_QR_H

#include <mistfold/err.h>

#ifdef __cplusplus
extern "C" {
#endif

/* UTF-8 lines of half blocks, two rows of modules a line, dark on light whatever the colors of
 * the terminal (ECMA-48). The caller frees it. MF_INPUT when text is too long for a code. */
MF_API mf_status mf_qr_text(const char *text, mf_bytes *out, mf_err *err);
/* A PNG of 8 pixels a module, black on white. As above. */
MF_API mf_status mf_qr_png(const char *text, mf_bytes *out, mf_err *err);

#ifdef __cplusplus
}
#endif
#endif
