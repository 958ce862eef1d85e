/* What a field is called, and a value of it as a person reads it: where a correction is told. */
#include <mistfold/words.h>

const char *mf_words_field(mf_lang lang, const mf_field *field)
{
    const char *name = mf_words2(lang, "paper.field", field->option);
    return name == NULL ? field->option : name;
}

const char *mf_words_held(mf_lang lang, const mf_field *field, const mf_value *value,
                          char room[MF_WORDS_HELD])
{
    const char *word = value->text;
    if (value->given && mf_field_is_number(field->type)) {
        mf_words_number(lang, value->number, mf_field_unit(field), room, MF_WORDS_HELD);
        return room;
    }
    if (value->given && (word == NULL || word[0] == '\0'))
        word = mf_value_word(field, value, room);
    if (value->given && field->type == MF_F_YESNO)
        word = mf_words2(lang, "paper", word);
    bool none = !value->given || word == NULL || word[0] == '\0';
    word = none ? mf_words(lang, "paper.not-given") : word;
    return word == NULL ? "" : word;
}
