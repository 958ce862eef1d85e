/* convert area, convert chip: the arithmetic of wipes and chips, without a book. */
#include "base/fail.h"
#include "cli/json.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

static mf_status read_area(const char *where, const char *text, mf_fraction *out, mf_err *err)
{
    mf_slip slip = mf_area_parse(text, out);
    if (slip == MF_SLIP_NONE)
        return MF_OK;
    return mf_failf(
        err, MF_INPUT, where, slip == MF_SLIP_DECIMAL_COMMA ? "decimals stand after a point" : "",
        "write \"11 5/8 x 12 1/8\" (inches) or \"30 x 30 cm\"", "\"%.60s\" is not an area", text);
}

static void print_decimal(const char *label, mf_fraction value, int places, const char *unit)
{
    int64_t scale = 1;
    for (int i = 0; i < places; i++)
        scale *= 10;
    int64_t rounded = mf_fraction_round(value, places);
    if (rounded == MF_NUM_NONE)
        return;
    printf("%-10s %" PRId64 ".%0*" PRId64 " %s\n", label, rounded / scale, places, rounded % scale,
           unit);
}

mf_status mf_cmd_convert_area(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_fraction in;
    (void)cmd;
    mf_status status = read_area("AREA", args->word[0], &in, &err);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    mf_fraction ft = mf_sq_in_to_sq_ft(in);
    if (cli->json) {
        printf("{\"sq_ft_num\": %" PRId64 ", \"sq_ft_den\": %" PRId64 ", \"sq_ft_1000\": %" PRId64
               "}\n",
               ft.num, ft.den, mf_fraction_round(ft, 3));
        return MF_OK;
    }
    print_decimal("area", in, 3, "sq in");
    print_decimal("", mf_sq_in_to_sq_cm(in), 3, "sq cm");
    print_decimal("", ft, 3, "sq ft");
    printf("%-10s %" PRId64 "/%" PRId64 " sq ft\n", "exactly", ft.num, ft.den);
    return MF_OK;
}

/* Digits only, at most 9 of them. */
static int64_t number_of(const mf_args *args, const char *option)
{
    const char *text = mf_args_value(args, option);
    int64_t value = 0;
    if (text == NULL || text[0] == '\0' || strlen(text) > 9 ||
        strspn(text, "0123456789") != strlen(text))
        return -1;
    for (; *text != '\0'; text++)
        value = value * 10 + (*text - '0');
    return value;
}

/* Either measure at or above its limit is lead-based paint; a fraction reaches a
 * limit exactly when what is cut off it does. */
static bool is_lead(mf_fraction loading, mf_fraction weight, mf_day on)
{
    bool by_loading = loading.den > 0 && mf_limit_holds(mf_limit_on(MF_LIMIT_PAINT_LOADING, on),
                                                        loading.num / loading.den);
    bool by_weight = weight.den > 0 && mf_limit_holds(mf_limit_on(MF_LIMIT_PAINT_WEIGHT, on),
                                                      weight.num / weight.den);
    return by_loading || by_weight;
}

mf_status mf_cmd_convert_chip(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_fraction in = {0, 1}, loading = {0, 0}, weight = {0, 0};
    const char *area = mf_args_value(args, "area");
    int64_t lead = number_of(args, "lead-ug"), mass = number_of(args, "mass-mg");
    mf_status status = area == NULL ? MF_OK : read_area("--area", area, &in, &err);
    (void)cmd;
    if (status == MF_OK && lead < 0)
        status = mf_fail(&err, MF_INPUT, "--lead-ug", "is not a whole number of micrograms", "",
                         "write the lead found in the chip, such as 3000");
    if (status == MF_OK && area == NULL && mass < 1)
        status = mf_fail(&err, MF_USAGE, "--area, --mass-mg", "at least one is needed",
                         "lead by area and by weight cannot be turned into each other without",
                         "give the area, the mass of the chip, or both");
    if (status != MF_OK)
        return mf_cli_fail(&err);
    if (area != NULL)
        loading = mf_chip_loading(lead, in);
    if (mass > 0)
        weight = mf_chip_weight(lead, mass);
    bool found = is_lead(loading, weight, cli->today);
    if (cli->json) {
        printf("{\"loading_num_ug_cm2\": %" PRId64 ", \"loading_den\": %" PRId64
               ", \"weight_num_ppm\": %" PRId64 ", \"weight_den\": %" PRId64
               ", \"lead_based\": %s}\n",
               loading.num, loading.den, weight.num, weight.den, found ? "true" : "false");
        return MF_OK;
    }
    if (loading.den > 0)
        print_decimal("loading", (mf_fraction){loading.num, loading.den * 1000}, 4, "mg/cm2");
    if (weight.den > 0) {
        print_decimal("weight", weight, 1, "ppm = ug/g = mg/kg");
        print_decimal("", (mf_fraction){weight.num, weight.den * 10000}, 4, "% by weight");
    }
    mf_cli_wrap(mf_cli_word(cli, found ? "testing.chip-lead" : "testing.chip-below"), 0, 0);
    return MF_OK;
}
