/* The English wording of every message, a %s an argument; what it says in Spanish stands in po/es_messages.po. */
#include "out/message_text.h"

static const char *const wording[PW_SAY_COUNT] = {
    [PW_SAY_NOTHING] = "",
    [PW_SAY_WIDTH] = PW_TEXT("width"),
    [PW_SAY_HEIGHT] = PW_TEXT("height"),
    [PW_SAY_WIDTHS] = PW_TEXT("widths"),
    [PW_SAY_HEIGHTS] = PW_TEXT("heights"),
    [PW_SAY_RISE] = PW_TEXT("rise"),
    [PW_SAY_LEG_LEFT] = PW_TEXT("leg_left"),
    [PW_SAY_LEG_RIGHT] = PW_TEXT("leg_right"),
    [PW_SAY_HEIGHT_LESS_LEG] = PW_TEXT("height less the low leg"),
    [PW_SAY_ITS_WIDTH_IS] = PW_TEXT("its width is"),
    [PW_SAY_HALF_ITS_WIDTH_IS] = PW_TEXT("half its width is"),
    [PW_SAY_HEIGHT_LESS_RISE_IS] = PW_TEXT("height less rise is"),
    [PW_SAY_ITS_HEIGHT_IS] = PW_TEXT("its height is"),
    [PW_SAY_ITS_LEG_IS] = PW_TEXT("its higher leg is"),
    [PW_SAY_LEG_LEFT_IS] = PW_TEXT("leg_left is"),
    [PW_SAY_ONE_INCH] = PW_TEXT("1 in"),
    [PW_SAY_TEN_INCHES] = PW_TEXT("10 in"),
    [PW_SAY_ONE_FOOT] = PW_TEXT("1 ft"),
    [PW_SAY_A_DOOR] = PW_TEXT("a door"),
    [PW_SAY_A_TUB] = PW_TEXT("a tub or shower"),
    [PW_SAY_THE_STAIR] = PW_TEXT("the stair"),

    /* readings */
    [PW_SAY_APART] =
        PW_TEXT("the %s readings differ by %s in (over 1/2): no order before they are measured "
                "again"),
    [PW_SAY_SPREAD] =
        PW_TEXT("the %s readings differ by %s in (usual: to 1/8): bowed, or misread; measure "
                "again"),
    [PW_SAY_EVENLY_ACROSS] =
        PW_TEXT("no rectangle: %s in wide below and %s in above, evenly between; name its shape"
                " (trapezoid, triangle ...)"),
    [PW_SAY_EVENLY_UP] =
        PW_TEXT("no rectangle: %s in high on the left and %s in on the right, evenly between; "
                "name its shape (trapezoid, triangle ...)"),
    [PW_SAY_DIGITS] = PW_TEXT("%s %s in reads like %s with two digits exchanged"),
    [PW_SAY_OTHER_SIDE] = PW_TEXT("%s %s in is what the %s measure: width and height swapped?"),
    [PW_SAY_FEW_READINGS] = PW_TEXT("%s of 3 %s readings taken"),
    [PW_SAY_UNUSUAL] =
        PW_TEXT("a %s %s wide and %s in high is unusual: width and height swapped?"),
    [PW_SAY_LYING_DOOR] =
        PW_TEXT("a door %s wide and only %s in high: width and height swapped?"),
    [PW_SAY_SIDE_DIGITS] =
        PW_TEXT("the %s %s in would fit the diagonals as %s: digits exchanged?"),
    [PW_SAY_IMPOSSIBLE] =
        PW_TEXT("no opening of %s x %s in has diagonals of about %s in (it has %s): measure "
                "again"),
    [PW_SAY_ADJUST] = PW_TEXT("diagonals differ by %s in: order as reckoned, shim more"),
    [PW_SAY_REMEASURE] =
        PW_TEXT("diagonals differ by %s in (more than 1/4): find out why, measure again before "
                "ordering"),
    [PW_SAY_STOP] =
        PW_TEXT("diagonals differ by %s in (more than 1/2): stop; look at the structure or "
                "choose another method"),
    [PW_SAY_FIN] =
        PW_TEXT("%s %s in is more than such a part has (usual: 1/2, at most 1 1/4): measure "
                "again"),
    [PW_SAY_SILL] =
        PW_TEXT("sill_height %s in is that of a door, and this is none: height above the floor,"
                " inches or feet? (sidelite yes: fixed glass beside a door)"),
    [PW_SAY_UNSQUARE_ONE] =
        PW_TEXT("the readings are not square and one diagonal is missing: take both before "
                "ordering"),
    [PW_SAY_UNSQUARE_NONE] =
        PW_TEXT("the readings are not square and the diagonals are missing: take both before "
                "ordering"),
    [PW_SAY_ONE_DIAGONAL] = PW_TEXT("one diagonal only: squareness unknown, lean taken as 0"),
    [PW_SAY_NO_DIAGONAL] = PW_TEXT("no diagonals: squareness unknown, lean taken as 0"),
    [PW_SAY_NEIGHBOUR_TEN] =
        PW_TEXT("the %s %s in is that of %s (%s in) but for 10 in; the diagonals confirm it: "
                "look once more whether they were measured"),
    [PW_SAY_NEIGHBOUR_SLIP] =
        PW_TEXT("likely slip: the %s %s in is that of %s (%s in) but for %s, and no diagonals "
                "confirm it: measure again"),
    [PW_SAY_NO_SUCH_SHAPE] =
        PW_TEXT("no %s: %s %s in, but %s %s in; measure again or name its shape"),
    [PW_SAY_SHAPE_DIAGONAL] =
        PW_TEXT("no %s of those measures has %s %s in (it has %s): measure again"),

    /* the way out */
    [PW_SAY_ESCAPE_WORDS] =
        PW_TEXT("In a fire a person asleep here must be able to climb out through this window, "
                "and a firefighter with air tank must be able to climb in."),
    [PW_SAY_CAUTION_CLOSING] =
        PW_TEXT("Local adopted code, the building official and licensed people decide."),
    [PW_SAY_ESCAPE_AREA] =
        PW_TEXT("escape opening too small: clear opening new about %s x %s in = %s ft2, old "
                "about %s x %s = %s ft2; wants %s ft2, short by %s"),
    [PW_SAY_ESCAPE_HEIGHT] =
        PW_TEXT("escape opening: clear height new about %s in, old about %s; wants %s"),
    [PW_SAY_ESCAPE_WIDTH] =
        PW_TEXT("escape opening: clear width new about %s in, old about %s; wants %s"),
    [PW_SAY_ESCAPE_BOTTOM_ASK] =
        PW_TEXT("escape opening: height of its bottom above the floor is not given"),
    [PW_SAY_ESCAPE_BOTTOM] =
        PW_TEXT("escape opening: its bottom stands about %s in above the floor (old %s); at "
                "most %s"),
    [PW_SAY_ESCAPE_MISSING] =
        PW_TEXT("would need %s in clear height at %s in width, or %s in width at %s in height"),
    [PW_SAY_ESCAPE_EXCEPTION] =
        PW_TEXT("a replacement exception may apply where local code keeps it: largest standard "
                "size that fits, same operation or an equal or larger opening; the building "
                "official decides"),
    [PW_SAY_ESCAPE_EXCEPTION_SMALLER] =
        PW_TEXT("a replacement exception may apply where local code keeps it: largest standard "
                "size that fits, same operation or an equal or larger opening (this one is "
                "smaller than the old); the building official decides"),
    [PW_SAY_ESCAPE_USE] =
        PW_TEXT("must open from inside without key or tool; clear opening new about %s x %s in "
                "= %s ft2, old about %s x %s = %s ft2"),
    [PW_SAY_ESCAPE_NAMED] =
        PW_TEXT("'%s' reads like a sleeping room and counts as one: give use to say otherwise"),
    [PW_SAY_ESCAPE_DOUBT_FAILS] =
        PW_TEXT("does anyone sleep in '%s'? Give use. As a sleeping room its escape opening "
                "would FAIL; clear opening new about %s x %s in = %s ft2, old about %s x %s = "
                "%s ft2"),
    [PW_SAY_ESCAPE_DOUBT_PASSES] =
        PW_TEXT("does anyone sleep in '%s'? Give use. As a sleeping room its escape opening "
                "would pass as computed; clear opening new about %s x %s in = %s ft2, old about"
                " %s x %s = %s ft2"),
    [PW_SAY_REMEDY_SAME_CUT] = PW_TEXT("the same kind, fins and lip cut"),
    [PW_SAY_REMEDY_CASEMENT] = PW_TEXT("a casement of the same size"),
    [PW_SAY_REMEDY_CASEMENT_CUT] = PW_TEXT("a casement, fins and lip cut"),
    [PW_SAY_REMEDY_SLIDER_WIDER] =
        PW_TEXT("a slider with the wider vent, 3/5 (it slides past 2/5)"),
    [PW_SAY_REMEDY_SLIDER_HALF] = PW_TEXT("a slider with the wider vent, half and half"),
    [PW_SAY_REMEDY_SPLIT_THIRDS] = PW_TEXT("another split, in thirds"),
    [PW_SAY_REMEDY_SPLIT_LOWER] = PW_TEXT("another split, lower sash 3/5 (it rises past 2/5)"),
    [PW_SAY_REMEDY_SPLIT_LITES] = PW_TEXT("another split, three lites in thirds"),
    [PW_SAY_REMEDY_PASSES] =
        PW_TEXT("%s: clear about %s x %s in = %s ft2, bottom at %s in: would pass"),
    [PW_SAY_REMEDY_PASSES_BELOW] =
        PW_TEXT("%s: clear about %s x %s in = %s ft2: would pass if its bottom is at most %s in"
                " above the floor"),
    [PW_SAY_REMEDY_FAILS] =
        PW_TEXT("%s: clear about %s x %s in = %s ft2, bottom at %s in: fails, %s"),
    [PW_SAY_REMEDY_FAILS_SOMEWHERE] = PW_TEXT("%s: clear about %s x %s in = %s ft2: fails, %s"),

    /* falls and glass */
    [PW_SAY_FALL] =
        PW_TEXT("fall: opens %s in above the ground with its clear bottom %s in above the floor"
                " (limits 72 and 24): guard, 4 in stop or opening control device"),
    [PW_SAY_FALL_ASK] = PW_TEXT("fall: give %s to know whether a guard is wanted"),
    [PW_SAY_FALL_ESCAPE] =
        PW_TEXT("fall guard and escape in one: only an opening control device that releases to "
                "the full clear opening will do"),
    [PW_SAY_LOW_PANE_ASK] =
        PW_TEXT("a pane of %s ft2 beside a walk: give sill_height to know whether safety glass "
                "is wanted"),
    [PW_SAY_LOW_PANE] =
        PW_TEXT("safety glass: pane %s ft2 (over 9), glass from %s in (under 18) to %s in (over"
                " 36), walk at %s in (within 36)"),
    [PW_SAY_GLASS_NEAR] =
        PW_TEXT("safety glass: %s in from %s, glass bottom at %s in (under %s)"),
    [PW_SAY_GLASS_NEAR_ASK] =
        PW_TEXT("safety glass: %s in from %s, height of the glass not given (%s in frees it)"),
    [PW_SAY_GLASS_IN_DOOR] = PW_TEXT("safety glass in every lite of a door, fixed or moving"),
    [PW_SAY_SAFETY_MARK] =
        PW_TEXT("photograph the permanent safety mark of each pane after setting it"),
    [PW_SAY_SAFETY_MARK_ORDERED] =
        PW_TEXT("ordered tempered: photograph its permanent mark after setting it"),

    /* the house and the product */
    [PW_SAY_COMBUSTION] =
        PW_TEXT("an appliance draws room air: have its venting and carbon monoxide checked "
                "after the house is tightened"),
    [PW_SAY_COMBUSTION_ASK] =
        PW_TEXT("does a furnace, water heater or fireplace draw room air? tightening may starve"
                " it"),
    [PW_SAY_ALARMS] = PW_TEXT("with a permit, smoke and carbon monoxide alarms may be wanted"),
    [PW_SAY_LEAD] =
        PW_TEXT("built %s, before %s: only a certified firm may disturb the paint; its "
                "certificate number is not given, so the job is not ready to start"),
    [PW_SAY_LEAD_CERTIFIED] =
        PW_TEXT("built %s, before %s: lead-safe practices, pamphlet before the start, records "
                "for 3 years; firm's certificate %s"),
    [PW_SAY_LEAD_ASK] = PW_TEXT(
        "year built not given: before %s lead-safe work by a certified firm is the rule"),
    [PW_SAY_LEAD_MINOR] = PW_TEXT("replacing a window is never minor work under the lead rule"),
    [PW_SAY_ASBESTOS] =
        PW_TEXT("stucco, putty and caulk of that age may hold asbestos: test before cutting, "
                "grinding or sanding"),
    [PW_SAY_ASBESTOS_ASK] =
        PW_TEXT("stucco, putty and caulk of unknown age may hold asbestos: test before cutting,"
                " grinding or sanding"),
    [PW_SAY_STRUCTURE] =
        PW_TEXT("out of square by %s in: have the header and framing looked at before anything "
                "is ordered"),
    [PW_SAY_STRUCTURE_ASK] =
        PW_TEXT("out of square by %s in: look for a sagging head, cracked stucco, rot"),
    [PW_SAY_WIND] = PW_TEXT(
        "the unit's rated design pressure must reach %s psf; anchors as its maker says"),
    [PW_SAY_WIND_ASK] =
        PW_TEXT("required design pressure not given: ask the permit office, then the label"),
    [PW_SAY_DEBRIS] = PW_TEXT("coast: impact glazing or shutters may be wanted"),
    [PW_SAY_DEBRIS_ASK] = PW_TEXT("is the site in a mapped region of wind-borne debris?"),
    [PW_SAY_WEEPS] =
        PW_TEXT("weeps of the old and the new frame stay open; seal head corners; photograph"),
    [PW_SAY_LEAK] =
        PW_TEXT("water has come in before: an insert does not mend failed flashing; find out "
                "first"),
    [PW_SAY_LEAK_ASK] = PW_TEXT("has water come in at any window before?"),
    [PW_SAY_WILDFIRE] =
        PW_TEXT("wildfire zone: insulating glass with a tempered pane, or a rated unit, may be "
                "wanted"),
    [PW_SAY_WILDFIRE_ASK] = PW_TEXT("is the site in a mapped wildfire zone?"),
    [PW_SAY_ALTITUDE] =
        PW_TEXT("the site lies %s ft off the plant's height (ask above %s): about %s psi bows "
                "the glass; ask for a unit built for the altitude"),
    [PW_SAY_ALTITUDE_ASK] =
        PW_TEXT("give elevation and plant_elevation: sealed units bow when they differ by more "
                "than about %s ft"),
    [PW_SAY_TUBES] = PW_TEXT("package %s has open tubes: its gas is lost, reckoned with air"),
    [PW_SAY_TINTED] =
        PW_TEXT("tinted glass: ask the glass maker about thermal stress; no film or close "
                "drapes"),
    [PW_SAY_TINTED_SHADED] =
        PW_TEXT("tinted glass under partial shade: ask the glass maker about thermal stress; no"
                " film or close drapes"),
    [PW_SAY_COATED_SHADED] =
        PW_TEXT("coated glass under partial shade: no film or close drapes without the maker's "
                "word"),
    [PW_SAY_REFLECTION] = PW_TEXT(
        "coated glass may throw hot spots on vinyl siding or turf: look where it faces"),
    [PW_SAY_LESS_GLASS] =
        PW_TEXT("glass falls by %s %% in all: check that each room keeps glass of 8 %% and "
                "opening of 4 %% of its floor"),
    [PW_SAY_RIGHT_TO_CANCEL] =
        PW_TEXT("a sale made at the home carries a 3 business day right to cancel"),
    [PW_SAY_APPROVAL] = PW_TEXT(
        "owners' association, historic district, security bars: written approval first"),
    [PW_SAY_STAYS_WAY_OUT] =
        PW_TEXT("the old window stays, so it is not of this order; as a way out it opens about "
                "%s x %s in = %s ft2, which today's limit for a new one does not allow"),
    [PW_SAY_STAYS_AS_IT_IS] = PW_TEXT("the old window stays, not of this order; as it is: %s"),

    /* the work */
    [PW_SAY_CUT_FINS] =
        PW_TEXT("Cut back both side fins (%s in): first see what holds the old frame to the "
                "wall and where it drains; dull the edges."),
    [PW_SAY_CUT_FIN] =
        PW_TEXT("Cut back one side fin (%s in): first see what holds the old frame to the wall "
                "and where it drains; dull the edges."),
    [PW_SAY_CUT_LIP] =
        PW_TEXT("Cut back the sill lip (%s in): first see what holds the old frame to the wall "
                "and where it drains; dull the edges."),
    [PW_SAY_CUT_FINS_LIP] =
        PW_TEXT("Cut back both side fins (%s in) and the sill lip (%s in): first see what holds"
                " the old frame to the wall and where it drains; dull the edges."),
    [PW_SAY_CUT_FIN_LIP] =
        PW_TEXT("Cut back one side fin (%s in) and the sill lip (%s in): first see what holds "
                "the old frame to the wall and where it drains; dull the edges."),
    [PW_SAY_CUT_NOTHING] = PW_TEXT("Cut nothing of the old frame."),
    [PW_SAY_LEAVE_FIN] = PW_TEXT("Leave the other side fin (%s in)."),
    [PW_SAY_LEAVE_FINS] = PW_TEXT("Leave both side fins (%s in)."),
    [PW_SAY_LEAVE_FINS_STAY] = PW_TEXT("Leave both side fins (%s in): they cannot come off."),
    [PW_SAY_LEAVE_LIP] = PW_TEXT("Leave the sill lip (%s in)."),
    [PW_SAY_LEAVE_LIP_STAYS] = PW_TEXT("Leave the sill lip (%s in): it cannot come off."),
    [PW_SAY_DRY_FIT] =
        PW_TEXT("Dry fit %s x %s in in a pocket of %s x %s in; shim level and plumb."),
    [PW_SAY_DRY_FIT_LEANS] =
        PW_TEXT("Dry fit %s x %s in in a pocket of %s x %s in; shim level and plumb, the pocket"
                " leans %s in."),
    [PW_SAY_DRY_FIT_SHAPE] =
        PW_TEXT("Dry fit the %s (%s in wide, %s in high in all) in its pocket; shim level and "
                "plumb."),
    [PW_SAY_DRY_FIT_TEMPLATE] =
        PW_TEXT("Dry fit the %s (%s in wide, %s in high in all) in its pocket; shim level and "
                "plumb, hold the template to both."),
    [PW_SAY_JOINT_B] =
        PW_TEXT("Joint B, window to old frame: seal outside with %s (ASTM C920, Class %s or "
                "better): %s in wide, %s in deep, over %s in closed-cell rod, dry and %s to %s "
                "F."),
    [PW_SAY_JOINT_B_ANY] =
        PW_TEXT("Joint B, window to old frame: seal outside with sealant (ASTM C920, Class %s "
                "or better): %s in wide, %s in deep, over %s in closed-cell rod, dry and %s to "
                "%s F."),
    [PW_SAY_JOINT_NARROW] =
        PW_TEXT("The order leaves %s in a side; a joint of Class 25 would want %s in."),
    [PW_SAY_JOINT_A] =
        PW_TEXT("Joint A, old frame to stucco: leave it where it is sound, else renew it %s in "
                "wide with the same."),
    [PW_SAY_LEAVE_ALONE] =
        PW_TEXT("Do not disturb stucco, flashing, framing or header; keep the weeps of both "
                "frames open; do not foam hard."),
    [PW_SAY_SEE_MARK] =
        PW_TEXT("Safety glass: see the permanent mark in each pane before setting it."),
    [PW_SAY_PAINT_NEVER] = PW_TEXT("Silicone takes no paint: match its colour."),
    [PW_SAY_PAINT_STATED] = PW_TEXT("Paint the sealant after %s days, as the job states."),
    [PW_SAY_PAINT_SHEET] = PW_TEXT("Paint the %s after %s to %s days, as its data sheet says."),
    [PW_SAY_PAINT_ASK] = PW_TEXT("Paint the sealant when its data sheet says so."),

    /* what the house model takes for granted */
    [PW_SAY_ASSUMED_WALL] = PW_TEXT("wall"),
    [PW_SAY_ASSUMED_ROOF] = PW_TEXT("roof"),
    [PW_SAY_ASSUMED_FLOOR] = PW_TEXT("floor"),
    [PW_SAY_ASSUMED_AIR] = PW_TEXT("air_changes"),
    [PW_SAY_ASSUMED_PLAN] = PW_TEXT("plan"),
    [PW_SAY_ASSUMED_CONTENTS] = PW_TEXT("contents"),
    [PW_SAY_ASSUMED_RADIANT] = PW_TEXT("gains radiant"),
    [PW_SAY_ASSUMED_HOURLY_AIR] = PW_TEXT("infiltration by the hour"),
    [PW_SAY_ASSUMED_AIRING] = PW_TEXT("opened windows"),
    [PW_SAY_OF_AIRING_ALWAYS] =
        PW_TEXT("by day and night, whenever it helps; %s %% of what can be opened"),
    [PW_SAY_OF_AIRING_EVENINGS] =
        PW_TEXT("evenings and nights, when it helps; %s %% of what can be opened"),
    [PW_SAY_ASSUMED_COVERINGS] = PW_TEXT("drapes and blinds"),
    [PW_SAY_OF_COVERINGS] = PW_TEXT(
        "before and after alike; %s %% of them closed in summer, %s %% on winter nights"),
    [PW_SAY_OF_PRESET] = PW_TEXT("%s"),
    [PW_SAY_OF_AIR] = PW_TEXT("%s an hour"),
    [PW_SAY_OF_AIR_BY_DOOR] = PW_TEXT("%s an hour, the year's mean by cfm50"),
    [PW_SAY_OF_PLAN] = PW_TEXT("square, %s m a side, walls N E S W"),
    [PW_SAY_OF_CONTENTS] = PW_TEXT("partitions 1.0, furniture 0.35 m2 a m2 of floor"),
    [PW_SAY_OF_RADIANT] = PW_TEXT("%s %%"),
    [PW_SAY_OF_AIM2] = PW_TEXT("AIM-2; suburb, half in floor and ceiling"),
    [PW_SAY_OF_SHERMAN] =
        PW_TEXT("Sherman and Grimsrud 1980; suburb, half in floor and ceiling"),

    /* what weather was taken */
    [PW_SAY_CLIMATE_MADE] = PW_TEXT("%s, hours made from monthly normals"),
    [PW_SAY_CLIMATE_MADE_AWAY] = PW_TEXT("%s, %s km away, hours made from monthly normals"),
    [PW_SAY_CLIMATE_MADE_OF] = PW_TEXT("%s: %s, hours made from monthly normals"),
    [PW_SAY_CLIMATE_MADE_OF_AWAY] =
        PW_TEXT("%s: %s, %s km away, hours made from monthly normals"),
    [PW_SAY_CLIMATE_HOURLY] = PW_TEXT("%s, hourly file (%s), %s hours mended"),
    [PW_SAY_STATION_AT] = PW_TEXT("station at %s m (%s ft)"),
    [PW_SAY_MADE_COLDER] =
        PW_TEXT("made %s K colder (%s K/m) for a house %s m (%s ft) above it"),
    [PW_SAY_MADE_WARMER] =
        PW_TEXT("made %s K warmer (%s K/m) for a house %s m (%s ft) below it"),
    [PW_SAY_HOUSE_ABOVE] = PW_TEXT("house %s m (%s ft) above it, not corrected"),
    [PW_SAY_HOUSE_ABOVE_AS_ASKED] =
        PW_TEXT("house %s m (%s ft) above it, not corrected as asked"),
    [PW_SAY_HOUSE_ABOVE_OF_FILE] =
        PW_TEXT("house %s m (%s ft) above it, not corrected (correct_height yes does)"),
    [PW_SAY_HOUSE_BELOW] = PW_TEXT("house %s m (%s ft) below it, not corrected"),
    [PW_SAY_HOUSE_BELOW_AS_ASKED] =
        PW_TEXT("house %s m (%s ft) below it, not corrected as asked"),
    [PW_SAY_HOUSE_BELOW_OF_FILE] =
        PW_TEXT("house %s m (%s ft) below it, not corrected (correct_height yes does)"),

    /* a tighter house */
    [PW_SAY_TIGHT_DRAWS_AIR] =
        PW_TEXT("an appliance draws room air, and the house's air may fall from %s to %s "
                "changes an hour: have its draught and carbon monoxide checked after the work"),
    [PW_SAY_TIGHT_MAY_DRAW_AIR] =
        PW_TEXT("the house's air may fall from %s to %s changes an hour: does a furnace, "
                "water heater or fireplace draw room air? then its draught has to be checked"),
    [PW_SAY_TIGHT_DAMP] = PW_TEXT(
        "outdoor air may fall from %s to %s changes an hour, under %s: let fans in "
        "bath and kitchen blow outdoors, and look for damp corners in the first winter"),
    [PW_SAY_TIGHT_AIRED] =
        PW_TEXT("outdoor air may fall from %s to %s changes an hour, not under %s: air "
                "bath and kitchen as before"),

    /* programs */
    [PW_SAY_PROGRAM_BEGINS] = PW_TEXT("%s begins %s and the install date is %s: no amount"),
    [PW_SAY_PROGRAM_ENDED] = PW_TEXT("%s ended %s and the install date is %s: no amount"),
    [PW_SAY_PROGRAM_MEETS] = PW_TEXT("the label values meet the criteria"),
    [PW_SAY_PROGRAM_MEETS_GROUP] = PW_TEXT("the label values meet the criteria (%s)"),
    [PW_SAY_PROGRAM_FAILS] = PW_TEXT("the label values do not meet the criteria"),
    [PW_SAY_PROGRAM_FAILS_GROUP] = PW_TEXT("the label values do not meet the criteria (%s)"),
    [PW_SAY_PROGRAM_NO_LABEL] =
        PW_TEXT("a label value that decides is missing: enter it from the label"),
    [PW_SAY_PROGRAM_NO_LABEL_GROUP] =
        PW_TEXT("a label value that decides is missing: enter it from the label (%s)"),
    [PW_SAY_PROGRAM_NO_DATE] =
        PW_TEXT("the label values meet the newest criteria; the job has no install date, so ask"
                " the program which edition holds"),
    [PW_SAY_PROGRAM_NO_DATE_GROUP] =
        PW_TEXT("the label values meet the newest criteria; the job has no install date, so ask"
                " the program which edition holds (%s)"),
    [PW_SAY_NOTHING_TO_CLAIM] = PW_TEXT(
        "nothing to claim: every window stays or is outside the heated and cooled rooms"),
    [PW_SAY_COUNTED_OTHER_GROUP] =
        PW_TEXT("counted are %s of %s windows, others meet another group: ask the program"),
    [PW_SAY_COUNTED_OTHERS_FAIL] =
        PW_TEXT("counted are %s of %s windows, the labels of the others do not meet them or are"
                " missing"),
    [PW_SAY_AMOUNT_AREA] = PW_TEXT("%s ft2 x $%s/ft2"),
    [PW_SAY_AMOUNT_OPENINGS] = PW_TEXT("%s openings x $%s"),
    [PW_SAY_AMOUNT_COST] = PW_TEXT("%s %% of $%s installed"),
    [PW_SAY_AMOUNT_PRODUCT_UNKNOWN] =
        PW_TEXT("%s %% of the product cost, which the job does not state"),
    [PW_SAY_AMOUNT_PRODUCT] = PW_TEXT("%s %% of $%s product cost, no labour"),
    [PW_SAY_AMOUNT_FIXED] = PW_TEXT("fixed $%s"),
    [PW_SAY_AMOUNT_NONE] = PW_TEXT("the program states criteria and pays no amount"),
    [PW_SAY_AMOUNT_COST_LEFT] = PW_TEXT("cap: cost $%s less $%s of other programs"),
    [PW_SAY_CAP] = PW_TEXT("cap: %s"),
    [PW_SAY_CAP_NOT_REACHED] = PW_TEXT("cap: %s, not reached"),

    /* what a choice does */
    [PW_SAY_CHOICE_AS_ORDERED] = PW_TEXT("as measured and ordered"),
    [PW_SAY_CHOICE_LEFT] = PW_TEXT("fins and lip left"),
    [PW_SAY_CHOICE_CUT] = PW_TEXT("fins and lip cut"),
    [PW_SAY_CHOICE_AIR] = PW_TEXT("air behind the insert"),
    [PW_SAY_CHOICE_FOAM] = PW_TEXT("foam behind the insert"),
    [PW_SAY_CHOICE_ALUMINIUM] = PW_TEXT("aluminium spacer"),
    [PW_SAY_CHOICE_STAINLESS] = PW_TEXT("stainless spacer"),
    [PW_SAY_CHOICE_FOAM_SPACER] = PW_TEXT("foam spacer"),

    /* the energy code */
    [PW_SAY_CODE_ZONE] = PW_TEXT("climate zone %s"),
    [PW_SAY_CODE_CALIFORNIA] =
        PW_TEXT("the code in force when the permit is asked for counts: ask the building "
                "department"),
    [PW_SAY_CODE_CALIFORNIA_NEWEST] =
        PW_TEXT("the newest edition, for the job has no install_date; the one in force when the"
                " permit is asked for counts: ask the building department"),
    [PW_SAY_CODE_CALIFORNIA_UNKNOWN] =
        PW_TEXT("California's code goes by its own zones 1 to 16 and this place's is not known:"
                " give code_zone in job.csv, as \"CA 12\"; until then no limit is compiled for "
                "it: ask the building department"),
    [PW_SAY_CODE_SMALL] = PW_TEXT("the limits for at most 75 ft2 of replaced windows; %s"),
    [PW_SAY_CODE_MODEL] = PW_TEXT("the local edition governs: ask the building department"),
    [PW_SAY_CODE_MODEL_ASK] =
        PW_TEXT("which edition was adopted here is in no table of ours: ask the building "
                "department and give code_edition in job.csv"),
    [PW_SAY_CODE_MODEL_UNKNOWN] =
        PW_TEXT("the climate zone of this place is not known: no limit is compiled for it. Ask "
                "the building department; code_zone in job.csv takes the zone or the county"),
    [PW_SAY_CODE_HIGH] = PW_TEXT("the U of its footnote for houses above 4000 ft; %s"),

    /* drawn sections */
    [PW_SAY_A_PACKAGE] = PW_TEXT("package"),
    [PW_SAY_AN_OPENING] = PW_TEXT("opening"),
    [PW_SAY_A_FRAME_LINE] = PW_TEXT("frame line"),
    [PW_SAY_SIDE_SILL] = PW_TEXT("sill"),
    [PW_SAY_SIDE_HEAD] = PW_TEXT("head"),
    [PW_SAY_SIDE_JAMB] = PW_TEXT("jamb"),
    [PW_SAY_SIDE_MEETING] = PW_TEXT("meeting rail"),
    [PW_SAY_FRAME_GAP] =
        PW_TEXT("Section %s is drawn with 1 gap, the glass of %s %s has %s: catalogue values "
                "stand in for it there."),
    [PW_SAY_FRAME_GAPS] =
        PW_TEXT("Section %s is drawn with %s gaps, the glass of %s %s has %s: catalogue values "
                "stand in for it there."),
    [PW_SAY_FRAME_WIDTH] =
        PW_TEXT("Section %s is drawn %s in (%s mm) wide, the %s of %s %s has %s in (%s mm): the"
                " heat of the whole opening is kept, glass for frame."),
    [PW_SAY_FRAME_WIDTH_RING] =
        PW_TEXT("Section %s is drawn %s in (%s mm) wide, the %s of %s %s has %s in (%s mm) with"
                " its ring: the heat of the whole opening is kept, glass for frame."),
    [PW_SAY_FRAME_BELOW] =
        PW_TEXT("Section %s begins below 0: its opening's edge is taken at 0, what lies beyond "
                "counts in the frame's heat."),
    [PW_SAY_FRAME_FIXES_SPACER] =
        PW_TEXT("Section %s fixes the spacer as drawn, whatever a package says."),
    [PW_SAY_FRAME_FIXES_FILLING] =
        PW_TEXT("Section %s fixes the filling behind the insert as drawn, whatever a package "
                "says."),
    [PW_SAY_FRAME_FIXES_BOTH] =
        PW_TEXT("Section %s fixes the spacer and the filling behind the insert as drawn, "
                "whatever a package says."),
    [PW_SAY_FRAME_MORE] =
        PW_TEXT("More remarks of this kind than fit here: look at each section by itself."),
};

const char *pw_message_wording(pw_message_number number)
{
  return (unsigned)number < PW_SAY_COUNT && wording[number] ? wording[number] : "";
}

const char *pw_message_word(const pw_tongue *tongue, pw_message_number number)
{
  return pw_tongue_say(tongue, pw_message_wording(number));
}
