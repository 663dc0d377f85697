// Every kind of bad cell is named by file, line and column, and nothing is imported.

#include "scratch.h"

#include <stdio.h>
#include <stdlib.h>

static struct scratch scratch;

#define SHAFT_MODELS                                                                               \
    "model,material,tip,tip_diameter,butt_diameter,raw_length,weight_g,tip_section,max_tip_trim,"  \
    "max_butt_trim,bore_note,bore_reference,bore_note_kinds\n"
#define CHARTS "model,flex,kind,column,column_weight_g,tip_trim\n"
#define HEAD_MODELS "model,kind,engraved,weight_g,hosel_bore,insertion,bore_height,loft,lie,bore\n"
#define HEADS "ticket,model,weight_g,dry_fit_overall,dry_fit_raw,bore_height\n"
#define SHAFTS "ticket,model,flex,raw_length,weight_g,rack\n"
#define BUILDS                                                                                     \
    "build,club,due,head,shaft,playing_length,grip_cap,grip_weight_g,swingweight,step,"            \
    "uniform_flex\n"
#define WORKERS "badge,name,role\n"
// With the columns that may be left out.
#define SHAFT_MODELS_MORE                                                                          \
    "model,material,tip,tip_diameter,butt_diameter,raw_length,weight_g,tip_section,max_tip_trim,"  \
    "max_butt_trim,bore_note,bore_reference,bore_note_kinds,balance,tip_wall,butt_wall\n"
#define HEAD_MODELS_MORE                                                                           \
    "model,kind,engraved,weight_g,hosel_bore,insertion,bore_height,loft,lie,bore,cg_beyond,"       \
    "inertia_gcm2\n"
#define PROFILES "model,flex,from_tip,stiffness_nm2\n"
#define SHAFTS_MORE                                                                                \
    "ticket,model,flex,raw_length,weight_g,rack,balance,frequency_cpm,frequency_mass_g\n"
#define BUILDS_MORE                                                                                \
    "build,club,due,head,shaft,playing_length,grip_cap,grip_weight_g,swingweight,step,"            \
    "uniform_flex,shaft_model,flex\n"
#define GTINS "gtin,head_model,shaft_model,flex\n"
#define POINTS_11(tens)                                                                            \
    "Rod,R," tens ".0,20\nRod,R," tens ".1,20\nRod,R," tens ".2,20\nRod,R," tens ".3,20\n"         \
    "Rod,R," tens ".4,20\nRod,R," tens ".5,20\nRod,R," tens ".6,20\nRod,R," tens ".7,20\n"         \
    "Rod,R," tens ".8,20\nRod,R," tens ".9,20\nRod,R," tens ".95,20\n"
#define POINTS_33 POINTS_11("1") POINTS_11("2") POINTS_11("3")
#define LONG "123456789012345678901234567890123456789012345678"

static const struct {
    const char *name;
    const char *text;
    const char *message; // its beginning up to the column, then words that must follow
    const char *words;
} bad[] = {
    // shaft models
    {"shaft_models.csv", SHAFT_MODELS ",steel,parallel,,,,,,,,none,,\n",
     "shaft_models.csv:2: column model: ", "is empty"},
    {"shaft_models.csv", SHAFT_MODELS LONG ",steel,parallel,,,,,,,,none,,\n",
     "shaft_models.csv:2: column model: ", "at most 47"},
    {"shaft_models.csv", SHAFT_MODELS "A,wood,parallel,,,,,,,,none,,\n",
     "shaft_models.csv:2: column material: ", "is none of: steel, graphite"},
    {"shaft_models.csv", SHAFT_MODELS "A,,parallel,,,,,,,,none,,\n",
     "shaft_models.csv:2: column material: ", "is empty"},
    {"shaft_models.csv", SHAFT_MODELS "A,steel,round,,,,,,,,none,,\n",
     "shaft_models.csv:2: column tip: ", "is none of: parallel, taper"},
    {"shaft_models.csv", SHAFT_MODELS "A,steel,taper,9.4,,,,,,,none,,\n",
     "shaft_models.csv:2: column tip_diameter: ", "is not between 0.1 and 1 in"},
    {"shaft_models.csv", SHAFT_MODELS "A,steel,taper,,2 in mm,,,,,,none,,\n",
     "shaft_models.csv:2: column butt_diameter: ", "mm"},
    {"shaft_models.csv", SHAFT_MODELS "A,steel,taper,,,1168,,,,,none,,\n",
     "shaft_models.csv:2: column raw_length: ", "1168"},
    {"shaft_models.csv", SHAFT_MODELS "A,steel,taper,,,,2 oz,,,,none,,\n",
     "shaft_models.csv:2: column weight_g: ", "is not a weight in grams"},
    {"shaft_models.csv", SHAFT_MODELS "A,steel,taper,,,,,5 5/7,,,none,,\n",
     "shaft_models.csv:2: column tip_section: ", "5/7"},
    {"shaft_models.csv", SHAFT_MODELS "A,steel,taper,,,,,,-1,,none,,\n",
     "shaft_models.csv:2: column max_tip_trim: ", "is not between 0 and 80 in"},
    {"shaft_models.csv", SHAFT_MODELS "A,steel,taper,,,,,,,x,none,,\n",
     "shaft_models.csv:2: column max_butt_trim: ", "x"},
    {"shaft_models.csv", SHAFT_MODELS "A,steel,taper,,,,,,,,,,\n",
     "shaft_models.csv:2: column bore_note: ", "is empty"},
    {"shaft_models.csv", SHAFT_MODELS "A,steel,taper,,,,,,,,some,,\n",
     "shaft_models.csv:2: column bore_note: ", "none, add_height, above_reference"},
    {"shaft_models.csv", SHAFT_MODELS "A,steel,taper,,,,,,,,none,2 1/64,\n",
     "shaft_models.csv:2: column bore_reference: ", "is not between 0 and 2 in"},
    {"shaft_models.csv", SHAFT_MODELS "A,steel,taper,,,,,,,,none,,driver; club\n",
     "shaft_models.csv:2: column bore_note_kinds: ", "\"club\" is none of: wood, driver"},
    {"shaft_models.csv", SHAFT_MODELS_MORE "A,steel,taper,,,46,,,,,none,,,46,,\n",
     "shaft_models.csv:2: column balance: ", "outside the shaft of 46 in"},
    {"shaft_models.csv", SHAFT_MODELS_MORE "A,steel,taper,,,,,,,,none,,,0,,\n",
     "shaft_models.csv:2: column balance: ", "is not between 1 and 60 in"},
    {"shaft_models.csv", SHAFT_MODELS_MORE "A,steel,taper,0.370,,,,,,,none,,,,0.186,\n",
     "shaft_models.csv:2: column tip_wall: ", "tube of 0.37 in is not thicker than half of that"},
    {"shaft_models.csv", SHAFT_MODELS_MORE "A,steel,taper,,0.6,,,,,,none,,,,,0.301\n",
     "shaft_models.csv:2: column butt_wall: ", "tube of 0.6 in is not thicker than half of that"},
    {"shaft_models.csv", SHAFT_MODELS_MORE "A,steel,taper,,0.6,,,,,,none,,,,,0.4 mm mm\n",
     "shaft_models.csv:2: column butt_wall: ", "mm"},
    // charts
    {"charts.csv", CHARTS "Rod,,wood,1,200,0\n", "charts.csv:2: column flex: ", "is empty"},
    {"charts.csv", CHARTS "Rod,R,driver,1,200,0\n",
     "charts.csv:2: column kind: ", "is none of: wood, hybrid, iron, wedge"},
    {"charts.csv", CHARTS "Rod,R,wood,,200,0\n", "charts.csv:2: column column: ", "is empty"},
    {"charts.csv", CHARTS "Rod,R,wood,1,,0\n",
     "charts.csv:2: column column_weight_g: ", "is empty"},
    {"charts.csv", CHARTS "Rod,R,wood,1,200,-1/2\n",
     "charts.csv:2: column tip_trim: ", "is not between 0"},
    {"charts.csv", CHARTS "Rod,R,wood,1,200,0\nRod,R,wood,2,200,1\n",
     "charts.csv:3: column column_weight_g: ", "same weight in charts.csv:2"},
    {"charts.csv", CHARTS "Rod,R,wood,1,200,0\nRod,R,wood,1,210,1\n",
     "charts.csv:3: column column: ", "of that name in charts.csv:2"},
    {"charts.csv", CHARTS "Rid,R,wood,1,200,0\n",
     "charts.csv:2: column model: ", "no shaft model \"Rid\""},
    {"charts.csv", CHARTS "Rod,R,wood,1,900,0\n",
     "charts.csv:2: column column_weight_g: ", "is not between 100 and 600 g"},
    // profiles
    {"profiles.csv", PROFILES ",R,0,20\nRod,R,10,30\nRod,R,20,40\n",
     "profiles.csv:2: column model: ", "is empty"},
    {"profiles.csv", PROFILES "Rod,R,0,\nRod,R,10,30\n",
     "profiles.csv:2: column stiffness_nm2: ", "is empty"},
    {"profiles.csv", PROFILES "Rod,R,61,20\nRod,R,10,30\nRod,R,20,30\n",
     "profiles.csv:2: column from_tip: ", "is not between 0 and 60 in"},
    {"profiles.csv", PROFILES "Rod,R,0,20\nRod,R,10,0.9\n",
     "profiles.csv:3: column stiffness_nm2: ", "is not a stiffness between 1 and 500"},
    {"profiles.csv", PROFILES "Rod,R,0,20\nRod,R,10,20.0001\n",
     "profiles.csv:3: column stiffness_nm2: ", "write it as 45 or 12.375"},
    {"profiles.csv", PROFILES "Rod,R,0,20\nRod,R,10,30\nRod,R,1,35\nRod,R,20,40\n",
     "profiles.csv:4: column from_tip: ", "nearer to the tip than the point in profiles.csv:3"},
    {"profiles.csv", PROFILES "Rod,R,0,20\nRod,R,10,30\nRod,R,10,35\n",
     "profiles.csv:4: column from_tip: ", "a point at that place in profiles.csv:3"},
    {"profiles.csv", PROFILES "Rod,R,0,20\n",
     "profiles.csv:2: column from_tip: ", "at least two points"},
    {"profiles.csv", PROFILES POINTS_33,
     "profiles.csv:34: column from_tip: ", "the profile has 33 points, at most 32 fit"},
    // head models
    {"head_models.csv", HEAD_MODELS "A,wood,,,,,,,,\n",
     "head_models.csv:2: column kind: ", "driver, fairway, hybrid"},
    {"head_models.csv", HEAD_MODELS "A,iron,12345678901234567,,,,,,,\n",
     "head_models.csv:2: column engraved: ", "at most 15"},
    {"head_models.csv", HEAD_MODELS "A,iron,,5001,,,,,,\n",
     "head_models.csv:2: column weight_g: ", "5001"},
    {"head_models.csv", HEAD_MODELS "A,iron,,,0,,,,,\n",
     "head_models.csv:2: column hosel_bore: ", "is not between 0.1 and 1"},
    {"head_models.csv", HEAD_MODELS "A,iron,,,,0,,,,\n",
     "head_models.csv:2: column insertion: ", "is not between"},
    {"head_models.csv", HEAD_MODELS "A,iron,,,,,3,,,\n",
     "head_models.csv:2: column bore_height: ", "is not between 0 and 2"},
    {"head_models.csv", HEAD_MODELS "A,iron,,,,,,91,,\n",
     "head_models.csv:2: column loft: ", "0 to 90 degrees"},
    {"head_models.csv", HEAD_MODELS "A,iron,,,,,,,60deg,\n",
     "head_models.csv:2: column lie: ", "0 to 90 degrees"},
    {"head_models.csv", HEAD_MODELS "A,iron,,,,,,,,deep\n",
     "head_models.csv:2: column bore: ", "is none of: blind, through, short"},
    {"head_models.csv", HEAD_MODELS_MORE "A,iron,,,,,,,,,4.1,\n",
     "head_models.csv:2: column cg_beyond: ", "is not between -2 and 4 in"},
    {"head_models.csv", HEAD_MODELS_MORE "A,iron,,,,,,,,,,20001\n",
     "head_models.csv:2: column inertia_gcm2: ", "is not a whole number from 100 to 20000"},
    // heads
    {"heads.csv", HEADS "H-0001B,Knob,,,,\n", "heads.csv:2: column ticket: ", "misread"},
    {"heads.csv", HEADS "S-0001S,Knob,,,,\n",
     "heads.csv:2: column ticket: ", "ticket of a shaft; a head belongs here"},
    {"heads.csv", HEADS "0001,Knob,,,,\n", "heads.csv:2: column ticket: ", "is not a ticket"},
    {"heads.csv", HEADS "H-00036,,,,,\n", "heads.csv:2: column model: ", "is empty"},
    {"heads.csv", HEADS "H-00036,Nob,,,,\n",
     "heads.csv:2: column model: ", "no head model \"Nob\""},
    {"heads.csv", HEADS "H-00036,Knob,7 oz,,,\n",
     "heads.csv:2: column weight_g: ", "is not a weight"},
    {"heads.csv", HEADS "H-00036,Knob,20,,,\n",
     "heads.csv:2: column weight_g: ", "is not between 100 and 600 g"},
    {"heads.csv", HEADS "H-00036,Knob,900,,,\n",
     "heads.csv:2: column weight_g: ", "\"900\" is not between 100 and 600 g; weigh again"},
    {"heads.csv", HEADS "H-00036,Knob,,47,,\n", "heads.csv:2: column dry_fit_raw: ", "needs both"},
    {"heads.csv", HEADS "H-00036,Knob,,,46,\n",
     "heads.csv:2: column dry_fit_overall: ", "needs both"},
    {"heads.csv", HEADS "H-00036,Knob,,48 1/64,46,\n",
     "heads.csv:2: column dry_fit_overall: ", "not between 0 and 2 in; measure again"},
    {"heads.csv", HEADS "H-00036,Knob,,45,46,\n",
     "heads.csv:2: column dry_fit_overall: ", "not between 0 and 2 in; measure again"},
    {"heads.csv", HEADS "H-00036,Knob,,47,46,1 3/64\n",
     "heads.csv:2: column bore_height: ", "differs by more than 1/32 in from the 1 in"},
    {"heads.csv", HEADS "H-00036,Knob,,,,2 1/16\n",
     "heads.csv:2: column bore_height: ", "is not between 0 and 2"},
    {"heads.csv", HEADS "H-00036,Knob,,,,\nH-00036,Knob,,,,\n",
     "heads.csv:3: column ticket: ", "is there already in heads.csv:2"},
    // shafts
    {"shafts.csv", SHAFTS "S-0004X,Rod,R,46,110,A1\n", "shafts.csv:2: column ticket: ", "misread"},
    {"shafts.csv", SHAFTS "S-0004M,Rod,,46,110,A1\n", "shafts.csv:2: column flex: ", "is empty"},
    {"shafts.csv", SHAFTS "S-0004M,Rod,R,4,110,A1\n",
     "shafts.csv:2: column raw_length: ", "is not between 24 and 60"},
    {"shafts.csv", SHAFTS "S-0004M,Rod,R,12,110,A1\n",
     "shafts.csv:2: column raw_length: ", "\"12\" is not between 24 and 60 in; measure again"},
    {"shafts.csv", SHAFTS "S-0004M,Rod,R,46,1100,A1\n",
     "shafts.csv:2: column weight_g: ", "is not between 20 and 250"},
    {"shafts.csv", SHAFTS "S-0004M,Rod,R,46,110,1234567890123456789012345\n",
     "shafts.csv:2: column rack: ", "at most 23"},
    {"shafts.csv", SHAFTS "S-0004M,Rad,R,46,110,A1\n",
     "shafts.csv:2: column model: ", "no shaft model \"Rad\""},
    {"shafts.csv", SHAFTS_MORE "S-0004M,Rod,R,46,110,A1,46 1/2,,\n",
     "shafts.csv:2: column balance: ", "outside the shaft of 46 in"},
    {"shafts.csv", SHAFTS_MORE "S-0001S,Rod,R,,,A1,47,,\n",
     "shafts.csv:2: column balance: ", "outside the shaft of 46 in"},
    {"shafts.csv", SHAFTS_MORE "S-0004M,Rod,R,46,110,A1,,49.9,\n",
     "shafts.csv:2: column frequency_cpm: ", "is not a frequency between 50 and 600"},
    {"shafts.csv", SHAFTS_MORE "S-0004M,Rod,R,46,110,A1,,600.1,\n",
     "shafts.csv:2: column frequency_cpm: ", "is not a frequency between 50 and 600"},
    {"shafts.csv", SHAFTS_MORE "S-0004M,Rod,R,46,110,A1,,300.25,\n",
     "shafts.csv:2: column frequency_cpm: ", "write it as 305 or 261.5"},
    {"shafts.csv", SHAFTS_MORE "S-0004M,Rod,R,46,110,A1,,300.5,\n",
     "shafts.csv:2: column frequency_mass_g: ", "says nothing without the mass"},
    {"shafts.csv", SHAFTS_MORE "S-0004M,Rod,R,46,110,A1,,,205\n",
     "shafts.csv:2: column frequency_cpm: ", "says nothing without the mass"},
    // builds
    {"builds.csv", BUILDS "1-2,3,,,,,,,,,\n", "builds.csv:2: column build: ", "is not a ticket"},
    {"builds.csv", BUILDS "1234567890123,3,,,,,,,,,\n",
     "builds.csv:2: column build: ", "1 to 12 digits or letters"},
    {"builds.csv", BUILDS "12/3,3,,,,,,,,,\n", "builds.csv:2: column build: ", "is no build"},
    {"builds.csv", BUILDS "2,,,,,,,,,,\n", "builds.csv:2: column club: ", "is empty"},
    {"builds.csv", BUILDS "2,3,31.3.2026,,,,,,,,\n", "builds.csv:2: column due: ", "2026-03-31"},
    {"builds.csv", BUILDS "2,3,2026-02-29,,,,,,,,\n",
     "builds.csv:2: column due: ", "no day of the calendar"},
    {"builds.csv", BUILDS "2,3,,H-0009V,,,,,,,\n",
     "builds.csv:2: column head: ", "no head \"H-0009V\""},
    {"builds.csv", BUILDS "2,3,,,S-0009C,,,,,,\n",
     "builds.csv:2: column shaft: ", "no shaft \"S-0009C\""},
    {"builds.csv", BUILDS "2,3,,S-0003O,,,,,,,\n",
     "builds.csv:2: column head: ", "a head belongs here"},
    {"builds.csv", BUILDS "2,3,,,,4,,,,,\n",
     "builds.csv:2: column playing_length: ", "is not between 5 and 80"},
    {"builds.csv", BUILDS "2,3,,,,,1 1/8,,,,\n",
     "builds.csv:2: column grip_cap: ", "is not between 0 and 1"},
    {"builds.csv", BUILDS "2,3,,,,,,501,,,\n",
     "builds.csv:2: column grip_weight_g: ", "is not between 0 and 500"},
    {"builds.csv", BUILDS "2,3,,,,,,,H2,,\n", "builds.csv:2: column swingweight: ", "D2 or C9.5"},
    {"builds.csv", BUILDS "2,3,,,,,,,,1/2,\n",
     "builds.csv:2: column step: ", "is not a whole number from -99 to 99"},
    {"builds.csv", BUILDS "2,3,,,,,,,,-100,\n",
     "builds.csv:2: column step: ", "is not a whole number from -99 to 99"},
    {"builds.csv", BUILDS "2,3,,,,,,,,,true\n",
     "builds.csv:2: column uniform_flex: ", "is none of: no, yes"},
    {"builds.csv", BUILDS "2,3,,,,,,,,,\n2,3,,,,,,,,,\n",
     "builds.csv:3: column club: ", "is there already in builds.csv:2"},
    {"builds.csv", BUILDS "2,3,,H-00028,,,,,,,\n2,5,,H-00028,,,,,,,\n",
     "builds.csv:3: column head: ", "H-00028 is reserved for club 3 of build 2 in builds.csv:2"},
    {"builds.csv", BUILDS "2,3,,,S-0002Q,,,,,,\n2,5,,,S-0002Q,,,,,,\n",
     "builds.csv:3: column shaft: ", "S-0002Q is reserved for club 3 of build 2"},
    {"builds.csv", BUILDS "2,3,,H-0001A,,,,,,,\n",
     "builds.csv:2: column head: ", "H-0001A is reserved for club 3 of build 1; take another part"},
    {"builds.csv", BUILDS "2,3,,,S-0001S,,,,,,\n", "builds.csv:2: column shaft: ",
     "S-0001S is reserved for club 3 of build 1; take another part"},
    {"builds.csv", BUILDS_MORE "2,3,,,,,,,,,,Rod,\n",
     "builds.csv:2: column flex: ", "needs model and flex"},
    {"builds.csv", BUILDS_MORE "2,3,,,,,,,,,,,R\n",
     "builds.csv:2: column shaft_model: ", "needs model and flex"},
    {"builds.csv", BUILDS_MORE "2,3,,,S-0003O,,,,,,,Rod,R\n",
     "builds.csv:2: column shaft_model: ", "a shaft is named already"},
    {"builds.csv", BUILDS_MORE "2,3,,,,,,,,,,Rad,R\n",
     "builds.csv:2: column shaft_model: ", "no shaft model \"Rad\""},
    // workers
    {"workers.csv", WORKERS "H-0001A,Cy Dace,builder\n",
     "workers.csv:2: column badge: ", "a worker badge belongs here"},
    {"workers.csv", WORKERS "W-00037,,builder\n", "workers.csv:2: column name: ", "is empty"},
    {"workers.csv", WORKERS "W-00037,Cy Dace,owner\n",
     "workers.csv:2: column role: ", "is none of: builder, supervisor"},
    // suppliers' codes
    {"gtins.csv", GTINS ",Knob,,\n", "gtins.csv:2: column gtin: ", "is empty"},
    {"gtins.csv", GTINS "6291041500214,Knob,,\n",
     "gtins.csv:2: column gtin: ", "\"6291041500214\" has a wrong check digit"},
    {"gtins.csv", GTINS "20123452,Knob,,\n",
     "gtins.csv:2: column gtin: ", "has a wrong check digit"},
    {"gtins.csv", GTINS "16291041500213,Knob,,\n",
     "gtins.csv:2: column gtin: ", "has a wrong check digit"},
    {"gtins.csv", GTINS "44100000018,Knob,,\n", // the zero in front is gone
     "gtins.csv:2: column gtin: ", "has 8, 12, 13 or 14 digits"},
    {"gtins.csv", GTINS "006291041500213,Knob,,\n",
     "gtins.csv:2: column gtin: ", "has 8, 12, 13 or 14 digits"},
    {"gtins.csv", GTINS "6.29104E+12,Knob,,\n",
     "gtins.csv:2: column gtin: ", "spreadsheets drop zeros"},
    {"gtins.csv", GTINS "6 291041 500213,Knob,,\n", "gtins.csv:2: column gtin: ", "is no GTIN"},
    {"gtins.csv", GTINS "6291041500213,,,R\n",
     "gtins.csv:2: column head_model: ", "and so is shaft_model; name the model of one"},
    {"gtins.csv", GTINS "6291041500213,Knob,Rod,\n",
     "gtins.csv:2: column head_model: ", "names one model"},
    {"gtins.csv", GTINS "6291041500213,Knob,,R\n",
     "gtins.csv:2: column flex: ", "is not for heads"},
    {"gtins.csv", GTINS "6291041500213,Rod,,\n",
     "gtins.csv:2: column head_model: ", "no head model \"Rod\""},
    {"gtins.csv", GTINS "6291041500213,,Knob,\n",
     "gtins.csv:2: column shaft_model: ", "no shaft model \"Knob\""},
    {"gtins.csv", GTINS "6291041500213,,Rod,1234567890123456\n",
     "gtins.csv:2: column flex: ", "at most 15"},
    {"gtins.csv", GTINS "6291041500213,Knob,,\n06291041500213,,Rod,\n",
     "gtins.csv:3: column gtin: ", "is there already in gtins.csv:2"},
    // headers and rows
    {"heads.csv", "ticket,model,weight,dry_fit_overall,dry_fit_raw,bore_height\n",
     "heads.csv:1: column weight: ", "is no column of heads.csv"},
    {"heads.csv", "ticket,model,dry_fit_overall,dry_fit_raw,bore_height\n",
     "heads.csv:1: column weight_g: ", "is missing"},
    {"workers.csv", "badge,name,role,name\n", "workers.csv:1: column name: ", "is there twice"},
    {"workers.csv", WORKERS "W-00037,Cy Dace\n", "workers.csv:2: ", "2 cells, the header 3"},
    {"workers.csv", WORKERS "W-00037,Cy,Dace,builder\n",
     "workers.csv:2: ", "4 cells, the header 3"},
    {"workers.csv", WORKERS "W-00037,Cy\tDace,builder\n",
     "workers.csv:2: column name: ", "character that is no text"},
    {"workers.csv", WORKERS "W-00037,\"Cy\nDace\",builder\n",
     "workers.csv:2: column name: ", "control character"},
    {"workers.csv", WORKERS "W-00037,Cy\xC2\x85,builder\n",
     "workers.csv:2: column name: ", "control character"},
    {"workers.csv", WORKERS "W-00037,Cy \"D\" Dace,builder\n",
     "workers.csv:2: column name: ", "quote in the middle"},
    {"workers.csv", WORKERS "W-00037,Cy Dace,\"builder\n",
     "workers.csv:3: column role: ", "never closed"},
    {"workers.csv", "", "workers.csv: ", "is empty"},
    {"people.csv", WORKERS, "people.csv: ", "is no name this shop knows"},
    {"xworkers.csv", WORKERS, "xworkers.csv: ", "is no name this shop knows"},
};

static int workshop(void **state) {
    (void)state;
    scratch_init(&scratch);
    scratch_import_workshop(&scratch);
    return 0;
}

static int release(void **state) {
    (void)state;
    scratch_release(&scratch);
    return 0;
}

static void bad_cells_are_named_and_nothing_is_imported(void **state) {
    char *before = scratch_dump(&scratch);
    (void)state;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        enum store_result result = scratch_import_text(&scratch, bad[i].name, bad[i].text);
        const char *at = strstr(scratch.messages, bad[i].message);
        char *after = scratch_dump(&scratch);
        if (result != STORE_REFUSED || at == NULL || strstr(at, bad[i].words) == NULL) {
            fail_msg("%s%s\nsaid (%d): %s\nnot: %s...%s", bad[i].name, bad[i].text, result,
                     scratch.messages, bad[i].message, bad[i].words);
        }
        assert_string_equal(before, after);
        free(after);
    }
    free(before);
}

// Only the one thing that is wrong is complained about.
static void one_bad_cell_gives_one_complaint(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        scratch_import_text(&scratch, bad[i].name, bad[i].text);
        if (strncmp(store_message(scratch.store), "1 wrong; nothing was imported.", 30) != 0 &&
            strcmp(bad[i].words, "is no column of heads.csv") != 0) { // missing there as well
            fail_msg("%s", scratch.messages);
        }
    }
}

static void a_file_that_is_not_there_is_named(void **state) {
    (void)state;
    assert_int_equal(scratch_import(&scratch, "spare-heads.csv", NULL), STORE_REFUSED);
    assert_non_null(strstr(scratch.messages, "spare-heads.csv: cannot be read: No such file"));
}

static void every_bad_cell_is_named_up_to_200(void **state) {
    static char text[SCRATCH_TEXT_MAX];
    size_t size = (size_t)snprintf(text, sizeof text, "%s", WORKERS);
    size_t lines = 0;
    (void)state;
    for (int i = 0; i < 150; i++) {
        size += (size_t)snprintf(text + size, sizeof text - size, "X%d,,boss\n", i);
    }
    assert_int_equal(scratch_import_text(&scratch, "workers.csv", text), STORE_REFUSED);
    for (const char *at = scratch.messages; (at = strstr(at, "workers.csv:")) != NULL; at++) {
        lines++;
    }
    assert_int_equal(lines, 200);
    assert_non_null(strstr(scratch.messages, "workers.csv:2: column badge: "));
    assert_non_null(strstr(scratch.messages, "workers.csv:2: column name: "));
    assert_non_null(strstr(scratch.messages, "workers.csv:2: column role: "));
    assert_non_null(strstr(scratch.messages, "and 250 more like these\n"));
    assert_non_null(strstr(store_message(scratch.store), "450 wrong; nothing was imported."));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bad_cells_are_named_and_nothing_is_imported),
        cmocka_unit_test(one_bad_cell_gives_one_complaint),
        cmocka_unit_test(a_file_that_is_not_there_is_named),
        cmocka_unit_test(every_bad_cell_is_named_up_to_200),
    };
    return cmocka_run_group_tests(tests, workshop, release);
}
