/* Words for the codes of a plan's items, in each language. */
#include <ungula/plan.h>

#include "core/contract.h"

enum { ENGLISH, GERMAN, LANGUAGES };
static const char *const language_code[LANGUAGES] = {"en", "de"};

static const struct {
    const char *code, *text[LANGUAGES];
} words[] = {
    {"adhesive_packs", {"packs of adhesive, first and top coat mixed apart: {quantity}",
                        "Packungen Klebstoff, erste und obere Schicht getrennt gemischt: {quantity}"}},
    {"spare_pack", {"one spare pack of adhesive", "eine Packung Klebstoff als Reserve"}},
    {"tape_rolls", {"rolls of casting tape: {quantity}", "Rollen Castband: {quantity}"}},
    {"spare_roll", {"one spare roll of casting tape", "eine Rolle Castband als Reserve"}},
    {"screws", {"screws: {quantity}", "Schrauben: {quantity}"}},
    {"screw_thread", {"thread of the screws: {quantity} {unit} outside",
                      "Gewinde der Schrauben: {quantity} {unit} au\u00dfen"}},
    {"screw_length", {"screws {quantity} {unit} long",
     "Schrauben von {quantity} {unit} L\u00e4nge"}},
    {"screw_longest", {"screws no longer than {quantity} {unit}", "Schrauben nicht l\u00e4nger als {quantity} "
     "{unit}"}},
    {"other_screw_longest", {"on the other side no longer than {quantity} {unit}",
     "auf der anderen Seite nicht l\u00e4nger als {quantity} {unit}"}},
    {"wall_screw_thread", {"thread of the screws through the wall: {quantity} {unit} outside",
                           "Gewinde der Schrauben durch die Wand: {quantity} {unit} au\u00dfen"}},
    {"wall_screw_length", {"screws through the wall {quantity} {unit} long",
     "Schrauben durch die Wand von {quantity} {unit} L\u00e4nge"}},
    {"wall_screw_shortest", {"screws through the wall at least {quantity} {unit} long",
                             "Schrauben durch die Wand mindestens {quantity} {unit} lang"}},
    {"wall_screw_longest", {"screws through the wall at most {quantity} {unit} long",
                            "Schrauben durch die Wand h\u00f6chstens {quantity} {unit} lang"}},
    {"other_wall_screw_shortest", {"on the other side at least {quantity} {unit} long",
     "auf der anderen Seite mindestens {quantity} {unit} lang"}},
    {"other_wall_screw_longest", {"on the other side at most {quantity} {unit} long",
     "auf der anderen Seite h\u00f6chstens {quantity} {unit} lang"}},
    {"horn_bit", {"a bit of {quantity} {unit} for the horn", "ein Bohrer von {quantity} {unit} f\u00fcr das Horn"}},
    {"wood_bit", {"a bit of {quantity} {unit} for the wood", "ein Bohrer von {quantity} {unit} f\u00fcr das Holz"}},
    {"putty_part", {"impression putty for the rear: {quantity} {unit} of each part",
                    "Abdruckmasse f\u00fcr hinten: je Komponente {quantity} {unit}"}},
    {"dam_putty", {"putty for the dam: {quantity} {unit}", "Masse f\u00fcr den Damm: {quantity} {unit}"}},
    {"ask_veterinarian", {"agree with the attending veterinarian, with radiographs at hand",
                          "mit der behandelnden Tier\u00e4rztin oder dem Tierarzt absprechen, "
                          "R\u00f6ntgenbilder zur Hand"}},
    {"mark_belt_toe", {"mark the top of the belt {quantity} {unit} above the wall's lower edge at the toe",
                       "Oberkante des G\u00fcrtels an der Zehe {quantity} {unit} \u00fcber dem Tragrand anzeichnen"}},
    {"mark_belt_heel", {"and {quantity} {unit} above the wall's lower edge at the heels",
                        "und an den Trachten {quantity} {unit} \u00fcber dem Tragrand"}},
    {"groove_wall", {"clean, dry and rasp the wall, grooves {quantity} {unit} deep",
                     "Wand reinigen, trocknen und raspeln, Rillen {quantity} {unit} tief"}},
    {"drill_from_shoe", {"drill from the shoe, {quantity} {unit} inside the wall's outer edge",
                         "vom Schuh her bohren, {quantity} {unit} innerhalb der Au\u00dfenkante der Wand"}},
    {"drill_slant", {"lean the drill inward by {quantity} {unit}, guided",
                     "Bohrer gef\u00fchrt um {quantity} {unit} nach innen neigen"}},
    {"drill_stop", {"stop collar: {quantity} {unit} into the horn, no deeper",
                    "Anschlag: {quantity} {unit} ins Horn, nicht tiefer"}},
    {"other_drill_from_shoe", {"on the other side {quantity} {unit} inside the outer edge",
     "auf der anderen Seite {quantity} {unit} innerhalb der Au\u00dfenkante"}},
    {"other_drill_slant", {"there lean the drill inward by {quantity} {unit}, guided",
     "dort den Bohrer gef\u00fchrt um {quantity} {unit} nach innen neigen"}},
    {"other_drill_stop", {"stop collar there: {quantity} {unit} into the horn, no deeper",
     "Anschlag dort: {quantity} {unit} ins Horn, nicht tiefer"}},
    {"drill_through_wall", {"drill through the wall {quantity} {unit} above its lower edge",
                            "durch die Wand bohren, {quantity} {unit} \u00fcber dem Tragrand"}},
    {"drill_dip", {"{quantity} {unit} below the horizontal", "{quantity} {unit} unter der Waagerechten"}},
    {"other_drill_through_wall", {"on the other side {quantity} {unit} above the lower edge",
     "auf der anderen Seite {quantity} {unit} \u00fcber dem Tragrand"}},
    {"other_drill_dip", {"there {quantity} {unit} below the horizontal",
     "dort {quantity} {unit} unter der Waagerechten"}},
    {"mix_packing", {"mix the putty and bed the rear of the sole", "Masse mischen und die Sohle hinten betten"}},
    {"lay_dam", {"lay the dam that keeps the adhesive off frog and bulbs",
                 "Damm legen, der den Klebstoff von Strahl und Ballen fernh\u00e4lt"}},
    {"mix_first_coat", {"mix {quantity} {unit} of adhesive for the first coat",
                        "{quantity} {unit} Klebstoff f\u00fcr die erste Schicht mischen"}},
    {"finish_within", {"finish within {quantity} {unit} of mixing",
                       "innerhalb von {quantity} {unit} nach dem Mischen fertig sein"}},
    {"cup_gels", {"left in the cup, it gels after {quantity} {unit}", "im Becher geliert er nach {quantity} {unit}"}},
    {"chance_too_late", {"chance that it sets before the last task is done: {quantity}",
                         "Wahrscheinlichkeit, dass er vor dem letzten Handgriff fest wird: {quantity}"}},
    {"go_on", {"one batch will do: go on",
     "ein Ansatz gen\u00fcgt: es kann losgehen"}},
    {"batches", {"batches to mix: {quantity}", "zu mischende Ans\u00e4tze: {quantity}"}},
    {"cool_parts", {"or cool adhesive, hoof and shoe to {quantity} {unit}, which leaves the time for it",
     "oder Klebstoff, Huf und Schuh auf {quantity} {unit} k\u00fchlen, was die Zeit daf\u00fcr l\u00e4sst"}},
    {"place_shoe", {"place the shoe", "Schuh aufsetzen"}},
    {"drive_screws", {"drive the screws: {quantity}", "Schrauben eindrehen: {quantity}"}},
    {"dip_tape", {"dip the tape in water of {quantity} {unit}, with gloves",
                  "Band mit Handschuhen in Wasser von {quantity} {unit} tauchen"}},
    {"wrap_passes", {"wrap, passes: {quantity}", "wickeln, Durchg\u00e4nge: {quantity}"}},
    {"edge_strain", {"the tape's lower edge has to stretch by {quantity} of its length beyond the rest",
                     "die Unterkante des Bandes muss sich um {quantity} ihrer L\u00e4nge mehr dehnen als der Rest"}},
    {"mix_top_coat", {"mix {quantity} {unit} of adhesive for the top coat, as a new batch",
                      "{quantity} {unit} Klebstoff f\u00fcr die obere Schicht neu mischen"}},
    {"keep_still", {"the tape sets in {quantity} {unit}; keep the foot still for longer than that",
                    "das Band bindet in {quantity} {unit} ab; den Fu\u00df l\u00e4nger ruhig halten"}},
    {"dress_heel_run", {"dress off the rear of the ground face over {quantity} {unit}",
                        "die Bodenfl\u00e4che hinten auf {quantity} {unit} abschr\u00e4gen"}},
    {"dress_heel_angle", {"at {quantity} {unit}", "um {quantity} {unit}"}},
    {"load_use", {"load over what the stronger of bond and screws carries: {quantity}; above 1 the horse is "
                  "not led away",
                  "Last zu Tragkraft des st\u00e4rkeren von Klebung und Schrauben: {quantity}; \u00fcber 1 "
                  "geht das Pferd nicht vom Platz"}},
    {"recheck", {"look at foot and shoe again after {quantity} {unit}; heat, pain or loose tape is for the "
     "veterinarian at once",
     "Huf und Beschlag nach {quantity} {unit} ansehen; W\u00e4rme, Schmerz oder loses Band gehen sofort an die "
     "Tier\u00e4rztin oder den Tierarzt"}},
    {"recheck_growth", {"tape that has moved on the wall by more than {quantity} {unit} until then has slipped",
     "Band, das sich bis dahin um mehr als {quantity} {unit} an der Wand bewegt hat, ist gerutscht"}},
    {"reset_by", {"reset after {quantity} {unit} at the latest",
                  "sp\u00e4testens nach {quantity} {unit} neu beschlagen"}},
    {"worn_by", {"the shoe's wear asks for a look after {quantity} {unit}",
                 "der Abrieb des Schuhs verlangt nach {quantity} {unit} eine Kontrolle"}},
    {"cut_tape", {"to take it off, cut the tape over its height of {quantity} {unit}, away from the coronet",
                  "zum Abnehmen das Band auf seiner H\u00f6he von {quantity} {unit} aufschneiden, weg vom Kronrand"}},
    {"heads_in_shoe", {"the screws' heads lie {quantity} {unit} inside the ground face: clear what has filled the hole",
                       "die Schraubenk\u00f6pfe liegen {quantity} {unit} unter der Bodenfl\u00e4che: "
                       "das Loch freimachen"}},
    {"heads_in_wall", {"the screws' heads lie under tape and adhesive, {quantity} {unit} inside the wall's face",
                       "die Schraubenk\u00f6pfe liegen unter Band und Klebstoff, {quantity} {unit} in der Wand"}},
    {"free_heads", {"and free the screws' heads and turn the screws out before the shoe is moved",
                    "und die Schraubenk\u00f6pfe freilegen und ausdrehen, bevor der Schuh bewegt wird"}},
};

static int same(const char *a, const char *b)
{
    while (*a && *a == *b)
        a++, b++;
    return *a == *b;
}

const char *ung_plan_language(size_t index)
{
    return index < LANGUAGES ? language_code[index] : NULL;
}

const char *ung_plan_text(const char *code, const char *language)
{
    for (size_t k = 0; code && language && k < LANGUAGES; k++)
        for (size_t i = 0; same(language, language_code[k]) && i < sizeof words / sizeof *words; i++)
            if (same(code, words[i].code))
                return words[i].text[k];
    return NULL;
}

/* ---- An item in words ---- */

/* Units that a language has words of its own for; the others are symbols.  NULL: the symbol. */
static const struct {
    const char *unit, *word[LANGUAGES];
} unit_words[] = {
    {"deg", {"degrees", "Grad"}},
    {"C", {"\u00b0C", "\u00b0C"}},
    {"days", {"days", "Tagen"}},
};
static const char *const endless[LANGUAGES] = {"unlimited", "unbegrenzt"};
static const char decimal_point[LANGUAGES] = {'.', ','};

/* A limit is never rounded to its wrong side. */
enum rounding { NEAREST, DOWN, UP };
static const struct {
    const char *code;
    enum rounding way;
} limits[] = {
    {"screw_longest", DOWN},      {"other_screw_longest", DOWN},     {"wall_screw_longest", DOWN},
    {"wall_screw_shortest", UP},  {"other_wall_screw_shortest", UP}, {"other_wall_screw_longest", DOWN},
    {"drill_stop", DOWN},         {"other_drill_stop", DOWN},        {"finish_within", DOWN},
    {"cup_gels", DOWN},           {"cool_parts", DOWN},              {"keep_still", UP},
    {"reset_by", DOWN},           {"worn_by", DOWN},                 {"chance_too_late", UP},
    {"load_use", UP},             {"mix_first_coat", UP},            {"mix_top_coat", UP},
    {"putty_part", UP},           {"dam_putty", UP},
};

static enum rounding rounding_of(const char *code)
{
    for (size_t i = 0; i < sizeof limits / sizeof *limits; i++)
        if (same(code, limits[i].code))
            return limits[i].way;
    return NEAREST;
}

typedef struct text {
    char *buffer;
    size_t size, length; /* length: what there would be with room for all */
} text;

static void put(text *t, char c)
{
    if (t->length + 1 < t->size)
        t->buffer[t->length] = c;
    t->length++;
}

static void put_all(text *t, const char *s)
{
    for (; *s; s++)
        put(t, *s);
}

/* Four digits, or all before the point where there are more; no zeros at the end. */
static void put_rounded(text *t, double value, enum rounding way, int language)
{
    if (value != value)
        return;
    if (value < 0) {
        put(t, '-');
        value = -value;
        way = way == DOWN ? UP : way == UP ? DOWN : NEAREST;
    }
    if (value > 1e15) {
        put_all(t, endless[language]);
        return;
    }
    int decimals = 0;
    double scale = 1;
    for (; decimals < 9 && value * scale < 1000; decimals++)
        scale *= 10;
    /* What is a number of so many digits but for its last bits stays it. */
    double scaled = value * scale, whole = ung__floor(scaled + 0.5), rest = scaled - whole;
    if (rest > 1e-9 * whole || rest < -1e-9 * whole)
        whole = way == DOWN ? ung__floor(scaled) : way == UP ? ung__ceil(scaled) : whole;
    unsigned long long digits = (unsigned long long)whole;
    while (decimals > 0 && digits % 10 == 0)
        digits /= 10, decimals--;
    char reversed[32];
    int n = 0;
    for (; digits > 0 || n <= decimals; digits /= 10) {
        if (n == decimals && decimals > 0)
            reversed[n++] = decimal_point[language], decimals = -1;
        reversed[n++] = (char)('0' + digits % 10);
    }
    while (n > 0)
        put(t, reversed[--n]);
}

static int begins(const char *s, const char *with)
{
    while (*with && *s == *with)
        s++, with++;
    return !*with;
}

size_t ung_plan_words(const char *code, double quantity, const char *unit, const char *language, char *buffer,
                      size_t size)
{
    text t = {buffer, buffer ? size : 0, 0};
    const char *words_of = ung_plan_text(code, language), *shown = unit ? unit : "";
    int k = 0;
    while (words_of && !same(language, language_code[k]))
        k++;
    for (size_t i = 0; words_of && i < sizeof unit_words / sizeof *unit_words; i++)
        if (same(shown, unit_words[i].unit))
            shown = unit_words[i].word[k];
    for (const char *c = words_of ? words_of : ""; *c;) {
        if (begins(c, "{quantity}")) {
            put_rounded(&t, quantity, rounding_of(code), k);
            c += sizeof "{quantity}" - 1;
        } else if (begins(c, "{unit}")) {
            put_all(&t, shown);
            c += sizeof "{unit}" - 1;
        } else
            put(&t, *c++);
    }
    if (t.size > 0)
        t.buffer[t.length < t.size ? t.length : t.size - 1] = 0;
    return t.length;
}
