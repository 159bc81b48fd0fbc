#include "job/words.h"

#include "panewright/survey.h"
#include "panewright/units.h"

/* Short codes of the trade (reference/trade/JOB.md); one meaning's words stand together, "any" last. */
const job_word job_operator_word[] = {
    {"fixed", PW_FIXED},
    {"fx", PW_FIXED},
    {"pw", PW_FIXED},
    {"picture", PW_FIXED},
    {"picture_window", PW_FIXED},
    {"slider", PW_SLIDER},
    {"hs", PW_SLIDER},
    {"horizontal_slider", PW_SLIDER},
    {"sliding", PW_SLIDER},
    {"sliding_window", PW_SLIDER},
    {"single_hung", PW_SINGLE_HUNG},
    {"sh", PW_SINGLE_HUNG},
    {"double_hung", PW_DOUBLE_HUNG},
    {"dh", PW_DOUBLE_HUNG},
    {"casement", PW_CASEMENT},
    {"cs", PW_CASEMENT},
    {"awning", PW_AWNING},
    {"aw", PW_AWNING},
    {"flanker", PW_FLANKER},
    {"fl", PW_FLANKER},
    {"sliding_door", PW_SLIDING_DOOR},
    {"sgd", PW_SLIDING_DOOR},
    {"sliding_glass_door", PW_SLIDING_DOOR},
    {"patio_door", PW_SLIDING_DOOR},
    {"hopper", PW_HOPPER},
    {"hp", PW_HOPPER},
    {"jalousie", PW_JALOUSIE},
    {"louvre", PW_JALOUSIE},
    {"louver", PW_JALOUSIE},
    {"hinged_door", PW_HINGED_DOOR},
    {"swing_door", PW_HINGED_DOOR},
    {"french_door", PW_HINGED_DOOR},
    {"any", PW_OPERATOR_COUNT},
};
const size_t job_operator_words_any = JOB_COUNT(job_operator_word);
const size_t job_operator_words = JOB_COUNT(job_operator_word) - 1;

const job_word job_shape_word[] = {
    {"rectangle", PW_SHAPE_RECTANGLE},
    {"square", PW_SHAPE_RECTANGLE},
    {"half_round", PW_SHAPE_HALF_ROUND},
    {"half_circle", PW_SHAPE_HALF_ROUND},
    {"round_top", PW_SHAPE_HALF_ROUND},
    {"quarter_round", PW_SHAPE_QUARTER_ROUND},
    {"arch", PW_SHAPE_ARCH},
    {"segmental", PW_SHAPE_ARCH},
    {"eyebrow", PW_SHAPE_ARCH},
    {"circle", PW_SHAPE_CIRCLE},
    {"round", PW_SHAPE_CIRCLE},
    {"octagon", PW_SHAPE_OCTAGON},
    {"triangle", PW_SHAPE_TRIANGLE},
    {"trapezoid", PW_SHAPE_TRAPEZOID},
    {"gothic", PW_SHAPE_GOTHIC},
};
const size_t job_shape_words = JOB_COUNT(job_shape_word);

const job_word job_frame_word[] = {
    {"aluminium", PW_FRAME_ALUMINIUM},
    {"aluminum", PW_FRAME_ALUMINIUM},
    {"alum", PW_FRAME_ALUMINIUM},
    {"alum_no_thermal_break", PW_FRAME_ALUMINIUM},
    {"aluminium_break", PW_FRAME_ALUMINIUM_BREAK},
    {"aluminum_break", PW_FRAME_ALUMINIUM_BREAK},
    {"alum_thermal_break", PW_FRAME_ALUMINIUM_BREAK},
    {"wood", PW_FRAME_WOOD},
    {"vinyl", PW_FRAME_VINYL},
    {"pvc", PW_FRAME_VINYL},
    {"fibreglass", PW_FRAME_FIBREGLASS},
    {"fiberglass", PW_FRAME_FIBREGLASS},
    {"steel", PW_FRAME_STEEL},
    {"steel_sash", PW_FRAME_STEEL},
};
const size_t job_frame_words = JOB_COUNT(job_frame_word);

const job_word job_spacer_word[] = {
    {"metal", PW_SPACER_METAL},           {"aluminium", PW_SPACER_METAL},
    {"aluminum", PW_SPACER_METAL},        {"stainless", PW_SPACER_STAINLESS},
    {"insulating", PW_SPACER_INSULATING}, {"foam", PW_SPACER_INSULATING},
    {"warm", PW_SPACER_INSULATING},
};
const size_t job_spacer_words = JOB_COUNT(job_spacer_word);

const job_word job_use_word[] = {
    {"other", PW_USE_OTHER},     {"living", PW_USE_OTHER},     {"kitchen", PW_USE_OTHER},
    {"dining", PW_USE_OTHER},    {"family", PW_USE_OTHER},     {"entry", PW_USE_OTHER},
    {"hall", PW_USE_OTHER},      {"office", PW_USE_OTHER},     {"laundry", PW_USE_OTHER},
    {"bedroom", PW_USE_BEDROOM}, {"sleeping", PW_USE_BEDROOM}, {"bath", PW_USE_BATH},
    {"bathroom", PW_USE_BATH},   {"stair", PW_USE_STAIR},      {"stairs", PW_USE_STAIR},
};
const size_t job_use_words = JOB_COUNT(job_use_word);

const pw_unit_word job_share[2] = {{"", 1.0, 0.0}, {"%", 0.01, 0.0}};
const pw_unit_word job_u_value[4] = {{"Btu/hft2F", PW_U_IP, 0.0},
                                     {"Btu/h-ft2-F", PW_U_IP, 0.0},
                                     {"W/m2K", 1.0, 0.0},
                                     {"W/(m2K)", 1.0, 0.0}};
