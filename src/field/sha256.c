#include "field/sha256.h"

#include <string.h>

enum { BLOCK = 64, ROUNDS = 64, WORDS = 8, LENGTH_AT = 56 };

/* FIPS 180-4, 4.2.2: the first 32 bits of the fractions of the cube roots of the first 64
 * primes. */
static const uint32_t k[ROUNDS] = {
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};

/* 5.3.3: of the square roots of the first eight. */
static const uint32_t first[WORDS] = {0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
                                      0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};

static uint32_t turn(uint32_t x, int n)
{
    return x >> n | x << (32 - n);
}

/* 6.2.2, step 1. */
static void spread(uint32_t w[ROUNDS], const unsigned char *block)
{
    for (size_t t = 0; t < 16; t++)
        w[t] = (uint32_t)block[4 * t] << 24 | (uint32_t)block[4 * t + 1] << 16 |
               (uint32_t)block[4 * t + 2] << 8 | block[4 * t + 3];
    for (size_t t = 16; t < ROUNDS; t++) {
        uint32_t a = w[t - 15], b = w[t - 2];
        w[t] = w[t - 16] + (turn(a, 7) ^ turn(a, 18) ^ a >> 3) + w[t - 7] +
               (turn(b, 17) ^ turn(b, 19) ^ b >> 10);
    }
}

/* 6.2.2, steps 2 to 4; v is a to h. */
static void take(uint32_t hash[WORDS], const unsigned char *block)
{
    uint32_t w[ROUNDS], v[WORDS];
    spread(w, block);
    memcpy(v, hash, sizeof v);
    for (size_t t = 0; t < ROUNDS; t++) {
        uint32_t one = v[7] + (turn(v[4], 6) ^ turn(v[4], 11) ^ turn(v[4], 25)) +
                       ((v[4] & v[5]) ^ (~v[4] & v[6])) + k[t] + w[t];
        uint32_t two = (turn(v[0], 2) ^ turn(v[0], 13) ^ turn(v[0], 22)) +
                       ((v[0] & v[1]) ^ (v[0] & v[2]) ^ (v[1] & v[2]));
        memmove(v + 1, v, 7 * sizeof v[0]);
        v[4] += one;
        v[0] = one + two;
    }
    for (size_t i = 0; i < WORDS; i++)
        hash[i] += v[i];
}

/* 5.1.1: a one, zeros, the length in bits. */
static void take_end(uint32_t hash[WORDS], const unsigned char *rest, size_t n, uint64_t len)
{
    unsigned char block[2 * BLOCK] = {0};
    size_t size = n < LENGTH_AT ? BLOCK : 2 * BLOCK;
    if (n > 0)
        memcpy(block, rest, n);
    block[n] = 0x80;
    for (size_t i = 0; i < 8; i++)
        block[size - 1 - i] = (unsigned char)(len * 8 >> 8 * i);
    for (size_t at = 0; at < size; at += BLOCK)
        take(hash, block + at);
}

void mf_field_sha256(const void *bytes, size_t len, char out[MF_HASH_HEX])
{
    static const char hex[] = "0123456789abcdef";
    uint32_t hash[WORDS];
    const unsigned char *at = bytes;
    size_t left = len;
    memcpy(hash, first, sizeof hash);
    for (; left >= BLOCK; left -= BLOCK, at += BLOCK)
        take(hash, at);
    take_end(hash, at, left, len);
    for (size_t i = 0; i < MF_HASH_HEX - 1; i++)
        out[i] = hex[hash[i / 8] >> (28 - 4 * (i % 8)) & 15];
    out[MF_HASH_HEX - 1] = '\0';
}

static bool hash_for_journal(void *data, const void *bytes, size_t len, char out[MF_HASH_HEX])
{
    (void)data;
    mf_field_sha256(bytes, len, out);
    return true;
}

const mf_sha256 mf_field_hash = {hash_for_journal, NULL};
