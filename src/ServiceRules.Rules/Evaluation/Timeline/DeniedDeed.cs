using System.Text.RegularExpressions;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// Words that deny what holds a machine, who was told and what was put right: the hasp would not close, the stand slipped, nobody
/// was reached, the part is on order. Read like those of <see cref="DeniedStep"/>, and no further.
/// </summary>
internal static partial class DeniedDeed
{
    private const RegexOptions Free = RegexOptions.IgnoreCase | RegexOptions.CultureInvariant;

    /// <summary>The entries whose words are read here.</summary>
    public static IReadOnlyList<TimelineEventKind> Kinds { get; } =
    [
        TimelineEventKind.LockApplied,
        TimelineEventKind.TagApplied,
        TimelineEventKind.PlugControlConfirmed,
        TimelineEventKind.ReelWedged,
        TimelineEventKind.UnitSupported,
        TimelineEventKind.StoredEnergyRechecked,
        TimelineEventKind.SafetyDefectClosed,
        TimelineEventKind.EnergyReviewed,
        TimelineEventKind.AffectedNotifiedBefore,
        TimelineEventKind.RemovalNotified,
        TimelineEventKind.ExposureChecked,
        TimelineEventKind.HandoverBriefed,
        TimelineEventKind.ContractorProceduresExchanged,
        TimelineEventKind.AbsenceConfirmed,
        TimelineEventKind.ContactAttempted,
        TimelineEventKind.OwnerInformed,
    ];

    /// <summary>Whether the words of such an entry deny it.</summary>
    public static bool By(TimelineEvent entry, string words) =>
        entry.Kind switch
        {
            TimelineEventKind.LockApplied or TimelineEventKind.TagApplied => NotHung().IsMatch(words),
            TimelineEventKind.PlugControlConfirmed => NotKept().IsMatch(words),
            TimelineEventKind.ReelWedged or TimelineEventKind.UnitSupported => NotHolding().IsMatch(words),
            TimelineEventKind.StoredEnergyRechecked => NotDone().IsMatch(words),
            TimelineEventKind.SafetyDefectClosed => NotPutRight().IsMatch(words),
            TimelineEventKind.AbsenceConfirmed => NotAway().IsMatch(words),
            TimelineEventKind.ContactAttempted => NotSought().IsMatch(words),
            TimelineEventKind.EnergyReviewed
            or TimelineEventKind.AffectedNotifiedBefore
            or TimelineEventKind.RemovalNotified
            or TimelineEventKind.ExposureChecked
            or TimelineEventKind.HandoverBriefed
            or TimelineEventKind.ContractorProceduresExchanged
            or TimelineEventKind.OwnerInformed => NotDone().IsMatch(words) || NotTold().IsMatch(words),
            _ => false,
        };

    // A switch that could not be closed, with the lock on, is what a lock is for.
    [GeneratedRegex(
        @"(?<!\b(?:switch|breaker|isolator|disconnect|lever|handle|valve|tap|cock)\W+)\b(?:would|could|did|does|will|can)(?:\W+not|n'?t)\W+(?:be\W+)?(?:close|closed|lock|locked|shut|fit|fitted|go\W+(?:in|on|through)|latch|latched|hang|hung|snap)\b|(?<!\b(?:switch|breaker|isolator|disconnect|lever|handle|valve|tap|cock)\W+)\bnot\W+(?:yet\W+|properly\W+|quite\W+|fully\W+)*(?:locked|closed|latched|hung|fitted|on|shut|snapped)\b|"
            + DeniedStep.NotAfterNo
            + @"\b(?:hasp|lock|padlock|shackle|tag)\W+(?:is\W+|was\W+|has\W+|still\W+)*(?:broken|jammed|missing|lost|open|loose|came\W+off|fell\W+off|left\W+(?:open|off|loose))\b|"
            + DeniedStep.NotAfterNo
            + @"\b(?:left|hanging)\W+(?:open|unlocked|loose)\b|\bno\W+(?:lock|padlock|hasp|tag)\W+(?:to\W+be\W+had|available|left|found|on)\b",
        Free
    )]
    private static partial Regex NotHung();

    [GeneratedRegex(
        @"\bnot\W+(?:yet\W+)?(?:kept|watched|pulled|in\W+(?:sight|view))\b|"
            + DeniedStep.NotAfterNo
            + @"\b(?:out\W+of\W+(?:sight|view)|still\W+(?:in|plugged)|left\W+(?:in|plugged|lying))\b|\b(?:would|could|did)(?:\W+not|n'?t)\W+(?:be\W+)?(?:come|pull|pulled|reach|see|watch|keep)\b",
        Free
    )]
    private static partial Regex NotKept();

    [GeneratedRegex(
        DeniedStep.NotAfterNo
            + @"\b(?:slipped|slips|slipping|fell|fallen|gave\W+way|sank|sagged|came\W+(?:out|loose)|too\W+short|wobbl\w+)\b(?!.*\b(?:again|reset|re-set|then|until|now)\b)|\b(?:would|could|did|does|will)(?:\W+not|n'?t)\W+(?:be\W+)?(?:hold|holds|held|reach|fit|fitted|stay|wedge|wedged|support|supported|stand)\b|\bnot\W+(?:yet\W+|properly\W+|really\W+|quite\W+)*(?:held|holding|wedged|supported|propped|in\W+place|set)\b|\bno\W+(?:wedge|stand|prop|block|support)s?\W+(?:to\W+be\W+had|available|left|found|there)\b|\b(?:held|holding)\W+(?:it\W+)?(?:up\W+)?by\W+hand\b|\b(?:skipped|no\W+time)\b",
        Free
    )]
    private static partial Regex NotHolding();

    // Who was there and has left since is away.
    [GeneratedRegex(
        @"\bnot\W+(?:really\W+|yet\W+|been\W+|actually\W+)*(?:absent|away|gone|left|confirmed|checked|looked|asked|sure|known)\b|\b(?:didn'?t|did\W+not|couldn'?t|could\W+not)\W+(?:check|look|ask|confirm|go|leave)\b|(?<!\b(?:no|not|nothing|none|never|without)\W+(?:\w+\W+)?)\b(?:assumed|presumed|guessed|skipped)\b|\bno\W+time\b|\b(?:nobody|no\W+one|no-one)\W+(?:has\W+|had\W+)?(?:checked|looked|asked)\b|\bnever\W+(?:left|went|gone)\b|"
            + DeniedStep.NotAfterNo
            + @"\b(?:is|was|were|sat|stood|stayed|stays|still|seen|saw\W+(?:him|her|them)|working|works|worked)\W+(?:(?:still|sitting|standing|working|just|only|over|out|him|her|them)\W+)*(?:(?:in|at|on|by|near|around|behind|outside|under)\W+(?:(?:the|his|her|their|our|next|same|other)\W+)*(?:shop|workshop|shed|yard|site|office|canteen|store|stores|premises|building|bench|machine|unit|reel|course|grounds?|hall|room|toilet|lunch|break|tea|work)|here|there|present|about|around|nearby|next\W+door)\b(?!.*\b(?:until|till|left|gone|went|home|earlier|morning|yesterday|last)\b)",
        Free
    )]
    private static partial Regex NotAway();

    // Whoever did not answer was sought: that nobody was reached denies no attempt.
    [GeneratedRegex(
        @"\b(?:did|do|does|have|has|had|was|were|would)(?:\W+not|n'?t)\W+(?:(?:even|yet|been|really|bother\W+to|try\W+to|want\W+to|dare\W+to)\W+)*(?:ring|rung|rang|call|called|phone|phoned|try|tried|text|texted|radio|radioed|contact|contacted|ask|asked|seek|sought|look|looked|bother|attempt|attempted|done)\b(?!\W+back)|\b(?:could|can)(?:\W+not|n'?t)\W+(?:be\W+)?(?:ring|rung|phone|phoned|try|tried)\b|\b(?:not|never)\W+(?:(?:yet|even|been)\W+)*(?:rung|rang|ring|called|phoned|tried|contacted|attempted|asked|texted|sought|done)\b(?!\W+back)|\b(?:nobody|no\W+one|no-one)\W+(?:has\W+|had\W+|ever\W+)*(?:rang|rung|called|phoned|tried|asked|sought|texted)\b(?!\W+back)|\bwithout\W+(?:ringing|calling|phoning|asking|trying)\b|\bno\W+(?:call|attempt|try|need|time|phone|number)\b|\b(?:skipped|forgot(?:ten)?|unnecessary)\b|\b(?:will|shall|going\W+to|to\W+be)\W+(?:be\W+)?(?:ring|rung|call|called|phone|phoned|try|tried|tell|told|ask|asked)\b",
        Free
    )]
    private static partial Regex NotSought();

    // What was broken and is now mended says of before what it denies.
    [GeneratedRegex(
        @"\b(?:not|never)\W+(?:yet\W+|been\W+|really\W+|fully\W+|properly\W+)*(?:mended|repaired|fixed|replaced|renewed|put\W+right|done|cured|solved)\b(?!.*\b(?:now|then|since|replaced|renewed|adjusted|so)\b)|\b(?:could|did|would|can)(?:\W+not|n'?t)\W+(?:be\W+)?(?:mend|repair|fix|replace|cure|put|find|do|mended|repaired|fixed|replaced|cured|found|done)\b(?!.*\b(?:now|then|since|replaced|renewed|adjusted|so)\b)|"
            + DeniedStep.NotAfterNo
            + @"\bstill\W+(?:loose|broken|cracked|missing|leaking|open|faulty|defective|off|bent|worn|there|to\W+be)\b|"
            + DeniedStep.NotAfterNo
            + @"\b(?:on\W+order|awaiting|waiting\W+for|to\W+be\W+(?:mended|repaired|fixed|replaced|done)|bodged|makeshift|for\W+now|temporar(?:y|ily))\b(?!.*\b(?:fitted|replaced|arrived|came|permanent)\b)|\bno\W+(?:time|parts?|spares?)\b(?!\W+(?:left|missing|loose)\b)|\bleft\W+as\W+it\W+(?:is|was)\b|\bnothing\W+(?:was\W+)?done\b|\bleft\W+(?:(?:the|a|one|both|its|front|rear|right)\W+)*(?!no\b)\w+\W+off\b",
        Free
    )]
    private static partial Regex NotPutRight();

    [GeneratedRegex(
        @"\b(?:not|never)\W+(?:(?:yet|been|be|actually|really|all)\W+)*(?:checked|read|looked|gone\W+through|reviewed|briefed|exchanged|counted|accounted|done|there)\b|\b(?:nobody|no\W+one|no-one|nothing|none)\W+(?:was\W+|has\W+been\W+|were\W+)?(?:briefed|counted|checked|looked|exchanged|reviewed|read|accounted)\b|\bbefore\W+(?:I|we|he|she|they|anybody)\W+could\b|\b(?:didn'?t|did\W+not|couldn'?t|could\W+not|cannot|unable\W+to|forgot\W+to)\W+(?:be\W+)?(?:check|read|look|go|review|brief|exchange|count|find|do|checked|done|found|counted)\b|\b(?:skipped|no\W+time|unchecked)\b|(?<!\b(?:no|not|nothing|none|never|without)\W+(?:\w+\W+)?)\b(?:assumed|presumed|guessed)\b|\bforgot(?:ten)?\b",
        Free
    )]
    private static partial Regex NotDone();

    [GeneratedRegex(
        @"\b(?:not|never)\W+(?:(?:yet|been|actually|really|all|everybody|everyone)\W+)*(?:told|reached|informed|asked|answered|notified|warned|out|found)\b|\b(?:told|informed|warned|asked|briefed)\W+(?:nobody|no\W+one|no-one|none)\b|\b(?:do|does|did)(?:\W+not|n'?t)\W+(?:yet\W+|even\W+)?know\b|\b(?:didn'?t|did\W+not|couldn'?t|could\W+not|cannot|unable\W+to)\W+(?:be\W+)?(?:tell|reach|inform|ask|get|raise|notify|told|reached|informed)\b|\b(?:nobody|no\W+one|no-one)\W+(?:was\W+|is\W+|has\W+been\W+)?(?:told|there|here|reached|answered|about|around|informed|picked)\b|\bno\W+(?:answer|reply)\b|"
            + DeniedStep.NotAfterNo
            + @"\b(?:one|two|three|somebody|someone|both)\W+(?:is\W+|are\W+|was\W+|were\W+|still\W+)*(?:missing|short|under|underneath|inside|in\W+(?:the|there|it))\b|\bwill\W+(?:tell|inform|ask|brief)\b",
        Free
    )]
    private static partial Regex NotTold();
}
