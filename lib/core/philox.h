/* Random numbers by number: Philox4x32-10 (Salmon, Moraes, Dror, Shaw 2011) turns a counter and a key into four words.
 * Nothing is remembered, so draw i is the same whoever asks for it, in whatever order. */
#ifndef UNG_CORE_PHILOX_H
#define UNG_CORE_PHILOX_H

#include <stddef.h>

#include "core/elementary.h"

typedef struct ung__words {
    uint32_t word[4];
} ung__words;

UNG_INLINE ung__words ung__philox_round(ung__words c, uint32_t key0, uint32_t key1)
{
    const uint64_t p = UINT64_C(0xd2511f53) * c.word[0], q = UINT64_C(0xcd9e8d57) * c.word[2];
    return (ung__words){{(uint32_t)(q >> 32) ^ c.word[1] ^ key0, (uint32_t)q,
                         (uint32_t)(p >> 32) ^ c.word[3] ^ key1, (uint32_t)p}};
}

UNG_INLINE ung__words ung__philox(ung__words counter, uint32_t key0, uint32_t key1)
{
    for (int round = 0; round < 10; round++) {
        counter = ung__philox_round(counter, key0, key1);
        key0 += UINT32_C(0x9e3779b9);
        key1 += UINT32_C(0xbb67ae85);
    }
    return counter;
}

/* Counters (first + i, 0, place, 0) for i from 0 to count - 1, a multiple of 16, with the key (seed, 0): two numbers
 * of 64 bits each, words 0 and 1 in even, 2 and 3 in odd.  Rounds go over 16 counters at a time: vector code. */
enum { UNG_PHILOX_SIDE_BY_SIDE = 16 };
UNG_INLINE void ung__philox_fill(uint32_t first, uint32_t place, uint32_t seed, size_t count, uint64_t *even,
                                 uint64_t *odd)
{
    for (size_t at = 0; at < count; at += UNG_PHILOX_SIDE_BY_SIDE) {
        uint32_t a[UNG_PHILOX_SIDE_BY_SIDE], b[UNG_PHILOX_SIDE_BY_SIDE], c[UNG_PHILOX_SIDE_BY_SIDE];
        uint32_t d[UNG_PHILOX_SIDE_BY_SIDE], key0 = seed, key1 = 0;
#pragma omp simd
        for (uint32_t i = 0; i < UNG_PHILOX_SIDE_BY_SIDE; i++) {
            a[i] = first + (uint32_t)at + i;
            b[i] = d[i] = 0;
            c[i] = place;
        }
        for (int round = 0; round < 10; round++) {
#pragma omp simd
            for (uint32_t i = 0; i < UNG_PHILOX_SIDE_BY_SIDE; i++) {
                const uint64_t p = UINT64_C(0xd2511f53) * a[i], q = UINT64_C(0xcd9e8d57) * c[i];
                const uint32_t next_a = (uint32_t)(q >> 32) ^ b[i] ^ key0, next_c = (uint32_t)(p >> 32) ^ d[i] ^ key1;
                b[i] = (uint32_t)q;
                d[i] = (uint32_t)p;
                a[i] = next_a;
                c[i] = next_c;
            }
            key0 += UINT32_C(0x9e3779b9);
            key1 += UINT32_C(0xbb67ae85);
        }
#pragma omp simd
        for (size_t i = 0; i < UNG_PHILOX_SIDE_BY_SIDE; i++) {
            even[at + i] = (uint64_t)a[i] << 32 | b[i];
            odd[at + i] = (uint64_t)c[i] << 32 | d[i];
        }
    }
}

/* A share strictly between 0 and 1 from the upper 52 bits: (bits + 1/2)/2^52, without rounding. */
UNG_INLINE double ung__share(uint64_t bits)
{
    const uint64_t lower = bits >> 12 & UINT64_C(0x7ffffffffffff);
    const double within = ung__from_bits(lower | UINT64_C(0x4330000000000000)) - 0x1p52;
    const double half = ung__from_bits((0 - (bits >> 63)) & UINT64_C(0x3fe0000000000000));
    return (within + 0.5) * 0x1p-52 + half;
}

#endif
