using System.Text.RegularExpressions;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// Words of a step of making safe or of release that say the opposite of it: the reel still turns, a guard is missing, somebody
/// is still under the unit. A few turns of English; others are a person's to read. What stands after a no, nobody or nothing of
/// the same clause denies nothing.
/// </summary>
internal static partial class DeniedStep
{
    private const RegexOptions Free = RegexOptions.IgnoreCase | RegexOptions.CultureInvariant;

    internal const string NotAfterNo =
        @"(?<!\b(?:no|nobody|none|no-one|nothing|not|never|neither|nor|without|isn't|wasn't)\b[^,;.]*)";

    /// <summary>The steps whose words are read here.</summary>
    public static IReadOnlyList<TimelineEventKind> Kinds { get; } =
    [
        TimelineEventKind.DriveDisengaged,
        TimelineEventKind.UnitsLowered,
        TimelineEventKind.ParkingBrakeSet,
        TimelineEventKind.MachineShutDown,
        TimelineEventKind.KeyRemoved,
        TimelineEventKind.SeenAtRest,
        TimelineEventKind.IsolatorOperated,
        TimelineEventKind.PlugRemoved,
        TimelineEventKind.GlovesWorn,
        TimelineEventKind.AreaInspected,
        TimelineEventKind.GuardsRefitted,
        TimelineEventKind.PeopleClearChecked,
    ];

    /// <summary>Whether words of guards that were fitted say that one is not.</summary>
    public static bool SaysGuardsOff(string words) => NotRefitted().IsMatch(words);

    /// <summary>Whether words of people kept out say that somebody is there, or that nobody looked.</summary>
    public static bool SaysPeopleThere(string words) =>
        StillThere().IsMatch(words) || NotLooked().IsMatch(words) || NotKeptOut().IsMatch(words);

    /// <summary>Whether the words of such a step deny it.</summary>
    public static bool By(TimelineEvent entry, string method) =>
        entry.Kind switch
        {
            TimelineEventKind.DriveDisengaged or TimelineEventKind.MachineShutDown => Turning()
                .IsMatch(method) || NotStopped().IsMatch(method),
            TimelineEventKind.SeenAtRest => Turning().IsMatch(method) || NotAtRest().IsMatch(method),
            TimelineEventKind.UnitsLowered => NotLowered().IsMatch(method),
            TimelineEventKind.ParkingBrakeSet => NotBraked().IsMatch(method),
            TimelineEventKind.KeyRemoved => KeyLeft().IsMatch(method),
            TimelineEventKind.IsolatorOperated or TimelineEventKind.PlugRemoved => entry.Position
                != IsolatorPosition.On
                && NotSwitched().IsMatch(method),
            TimelineEventKind.GlovesWorn => NoGloves().IsMatch(method),
            TimelineEventKind.AreaInspected => LeftBehind().IsMatch(method) || NotLooked().IsMatch(method),
            TimelineEventKind.GuardsRefitted => NotRefitted().IsMatch(method),
            TimelineEventKind.PeopleClearChecked => StillThere().IsMatch(method)
                || NotLooked().IsMatch(method),
            _ => false,
        };

    [GeneratedRegex(
        NotAfterNo
            + @"\b(?:still|yet|kept)\W+(?:\w+\W+)?(?:turning|moving|running|spinning|rotating|engaged|creeping)\b(?!.*\b(?:until|then|before)\b)"
            + @"|"
            + NotAfterNo
            + @"\b(?:reels?|blades?|cylinders?|engine|motor|it)\W+(?:(?:is|was|were|are|kept)\W+)*(?:turning|spinning|rotating|running)\b(?!.*\b(?:until|then|before|stopped|stops|stood)\b)",
        Free
    )]
    private static partial Regex Turning();

    [GeneratedRegex(
        @"\b(?:did|does|would|will|could|can)(?:\W+not|n'?t)\W+(?:stop|disengage|shut|cut|come)\b|\bcannot\W+be\W+(?:stopped|disengaged)\b|\bnot\W+(?:yet\W+)?(?:stopped|disengaged|shut\W+down|switched\W+off)\b|\b(?:still|left)\W+(?:running|engaged)\b(?<!\b(?:no|not|nothing)\W+(?:still|left)\W+\w+)",
        Free
    )]
    private static partial Regex NotStopped();

    [GeneratedRegex(
        @"\b(?:not|never)\W+(?:yet\W+|all\W+|quite\W+|really\W+)*(?:at\W+rest|stopped|still|seen|looked|checked|watched)\b|\b(?:didn'?t|did\W+not|could\W+not|couldn'?t)\W+(?:stop|look|see|check|wait|watch)\b|\b(?:assumed|presumed|skipped)\b",
        Free
    )]
    private static partial Regex NotAtRest();

    [GeneratedRegex(
        @"\b(?:did|does|would|will|could|can)(?:\W+not|n'?t)\W+(?:be\W+)?(?:lower|lowered|go|come|drop)\b|\bnot\W+(?:yet\W+|fully\W+|all\W+)*(?:lowered|down|on\W+the)\b|"
            + NotAfterNo
            + @"\bstill\W+(?:up|raised|lifted|hanging)\b",
        Free
    )]
    private static partial Regex NotLowered();

    [GeneratedRegex(
        @"\b(?:does|did|do|would|will|could|can)(?:\W+not|n'?t)\W+(?:be\W+)?(?:hold|set|work|engage|latch|lock|grip)\b|\bnot\W+(?:yet\W+|properly\W+)*(?:set|on|applied|working|holding)\b|"
            + NotAfterNo
            + @"\b(?:broken|faulty|defective|failed|slips|slipping|seized|no\W+brake)\b|\bno\W+(?:parking\W+)?brake\b",
        Free
    )]
    private static partial Regex NotBraked();

    [GeneratedRegex(
        NotAfterNo
            + @"\b(?:left|still|stays|stayed|stuck|remains|remained|key|is|was)\W+in(?:side)?\W+(?:the\W+|its\W+)?(?:switch|ignition|lock|machine|dash\w*|place|it)\b(?!\W*(?:box|out))|\bkey\W+(?:was\W+|is\W+)?(?:not|never)\W+(?:removed|taken|out|pulled|kept)\b|^\W*not\W+(?:removed|taken|out|pulled|kept)\b|\b(?:would|could|did|will)(?:\W+not|n'?t)\W+(?:be\W+)?(?:come|remove|removed|take|taken)\b|\bforgot\b",
        Free
    )]
    private static partial Regex KeyLeft();

    [GeneratedRegex(
        @"(?<!\b(?:engine|motor|reels?|starter|machine|units?|it)\W+(?:then\W+)?)\b(?:would|could|did|does|will|can)(?:\W+not|n'?t)\W+(?:be\W+)?(?:turn|turned|move|open|opened|budge|switch|switched|come|pull|pulled|reach|find)\b|\b(?:would|could|did|can)(?:\W+not|n'?t)\W+(?:get|make|bring)\W+(?:it|this|that|the\W+(?!engine|motor|reel|starter|machine|unit|cylinder)\w+)\W+(?:to\W+)?(?:turn|move|open|off|out|budge|come)\b|\bnot\W+(?:yet\W+)?(?:turned|switched|opened|pulled|off)\b|"
            + NotAfterNo
            + @"\b(?:jammed|seized|stuck)\b(?!\W+reel)|"
            + NotAfterNo
            + @"\b(?:still|left)\W+(?:on|in|closed)\b",
        Free
    )]
    private static partial Regex NotSwitched();

    [GeneratedRegex(
        @"\b(?:no|without)\W+gloves?\b(?!\W+(?:near|while|when|in|at|during|by|on)\b)|\bgloves?\W+(?:were\W+|was\W+)?(?:not|never)\W+(?:worn|used|put|found|available|to\W+be\W+had)\b|^\W*(?:not\W+worn|none)\b|\bforgot\b|"
            + NotAfterNo
            + @"\bbare\W*hand(?:s|ed)?\b",
        Free
    )]
    private static partial Regex NoGloves();

    [GeneratedRegex(
        NotAfterNo
            + @"\b(?:left|still|lying|lies)\W+(?:in|on|under|inside|behind|near|at|beside|there)\b(?!\W+(?:the\W+)?(?:ground|floor|bench|trolley|stands?|order|place))|"
            + NotAfterNo
            + @"\b(?:tools?|spanners?|rags?|parts?|bolts?|screws?|keys?)\W+(?:is\W+|are\W+|still\W+|was\W+)*missing\b(?!.*\bfound\b)",
        Free
    )]
    private static partial Regex LeftBehind();

    [GeneratedRegex(
        @"\bnot\W+(?:yet\W+|all\W+|everybody\W+|everyone\W+|really\W+)*(?:clear|out|away|checked|looked|inspected|seen|done)\b(?!\W+of\W+(?:order|place))|\b(?:didn'?t|did\W+not|could\W+not|couldn'?t)\W+(?:look|see|check|inspect)\b|\b(?:assumed|presumed|skipped|no\W+time|unchecked)\b|\b(?:nobody|no\W+one|no-one)\W+(?:has\W+|had\W+)?(?:looked|checked|inspected|asked|cleared)\b",
        Free
    )]
    private static partial Regex NotLooked();

    [GeneratedRegex(
        @"(?<!\b(?:none|nothing)\W+(?:\w+\W+)?)\bnot\W+(?:yet\W+|all\W+|been\W+|be\W+|properly\W+)*(?:refitted|fitted|replaced|back|on|in\W+place|found|put|closed)\b|"
            + NotAfterNo
            + @"\b(?:missing|lost|left\W+off|broken|cracked|still\W+(?:off|out|loose|missing|to\W+be))\b(?!\W+(?:\w+\W+){0,2}(?:replaced|found|fitted|refitted|renewed|mended)\b)|"
            + NotAfterNo
            + @"\bleft\W+(?:(?:the|a|one|both|its|front|rear|left|right)\W+)*\w+\W+off\b|\bwithout\W+(?:the\W+|its\W+)?(?:(?:left|right|front|rear)\W+)?(?:guards?|shields?|covers?)\b|\b(?:didn'?t|did\W+not|would\W+not|wouldn'?t|could\W+not|couldn'?t|does\W+not|doesn'?t)\W+(?:be\W+)?(?:fit|refit|go|refitted|fitted|close)\b|\b(?:skipped|no\W+time)\b",
        Free
    )]
    private static partial Regex NotRefitted();

    [GeneratedRegex(
        @"\b(?:not|never)\W+(?:(?:yet|been|really)\W+)*(?:kept|marked|roped|fenced|cleared|closed|set\W+up|put\W+up|watched)\b|\bno\W+(?:zone|rope|tape|barrier|fence|cones?)\b|"
            + NotAfterNo
            + @"\b(?:walked|came|went|ran|stood|stands?|standing|was|were|is|are)\W+(?:right\W+)?(?:in|into|inside|through)\W+(?:the\W+|it|this)?(?:\W*(?:exclusion|danger)\W+)?(?:zone|area|cordon)\b",
        Free
    )]
    private static partial Regex NotKeptOut();

    [GeneratedRegex(
        NotAfterNo
            + @"\bstill\W+(?:in|under|underneath|near|at|on|inside|by|next|beside|behind|there|working)\b|"
            + NotAfterNo
            + @"\b(?:somebody|someone|one|people|child|children)\W+(?:(?:is|was|were|are|left)\W+)?(?:in|under|inside|near|beneath|underneath)\b|"
            + NotAfterNo
            + @"\b(?:in|under|inside|near|beneath|underneath|by|at|beside|behind|on|next\W+to)\W+(?:(?:the|a|his|her|their|that|one|both|our|front|rear|left|right)\W+)*(?:reels?|machine|mower|units?|blades?|cylinders?|bedknife|bedknives|rollers?|engine|grinder|wheel|drive|frame)\b(?<!\b(?:looked|look|checked|clear|seen|walked|tools?|guards?|stop|off|distance)\b[^,;.]*)"
            + @"|"
            + NotAfterNo
            + @"\bin\W+the\W+(?:pit|way)\b(?<!\b(?:clear|out)\b.*)|\b(?:would|will|could|did)(?:\W+not|n'?t)\W+(?:go|leave|move|stand|step|come)\W+(?:away|out|off|back|clear)\b|\bnot\W+(?:everybody|everyone|all)\b",
        Free
    )]
    private static partial Regex StillThere();
}
