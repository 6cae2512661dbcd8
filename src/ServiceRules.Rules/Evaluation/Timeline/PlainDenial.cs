using System.Text.RegularExpressions;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// Plain words that say a step is not done, with no word of denying in them: looked at, nearly stopped, still idling, taped on. A
/// floor like <see cref="DeniedStep"/>, and no parser; what they say is told, for a person to read.
/// </summary>
internal static partial class PlainDenial
{
    private const RegexOptions Free = RegexOptions.IgnoreCase | RegexOptions.CultureInvariant;

    /// <summary>Whether the words of an entry say that it is not done.</summary>
    public static bool By(TimelineEvent entry, string words) =>
        entry.Kind switch
        {
            TimelineEventKind.IsolationVerified => Trusted().IsMatch(words) && !Tried().IsMatch(words),
            TimelineEventKind.SeenAtRest => Coasting().IsMatch(words) && !Waited().IsMatch(words),
            TimelineEventKind.MachineShutDown => Idling().IsMatch(words) && !Waited().IsMatch(words),
            TimelineEventKind.StoredEnergyReleased => HeldByPressure().IsMatch(words),
            TimelineEventKind.LockApplied or TimelineEventKind.TagApplied => Open().IsMatch(words),
            TimelineEventKind.GuardsRefitted => Taped().IsMatch(words),
            TimelineEventKind.CutOutsProved => RunsOn().IsMatch(words),
            _ => false,
        };

    // Where anything was tried as well, it is for a person to say what that comes to.
    [GeneratedRegex(
        @"\b(?:looked|looking|glanced|glance)\W+(?:again\W+)?at\b|\b(?:same\W+as|like|as)\W+(?:before|earlier|this\W+morning|yesterday|last\W+time|the\W+first\W+time)\b",
        Free
    )]
    private static partial Regex Trusted();

    [GeneratedRegex(
        @"\b(?:tri(?:ed|al)|try|test\w*|attempt\w*|start\w*|press\w*|push\w*|turn\w*|crank\w*|gauge|meter|measur\w*|volt\w*|read\w*|zero|0|dead|nothing|operat\w*|mov\w*|controls?|levers?|prov\w*|gap|pointer|sight\W*glass)\b",
        Free
    )]
    private static partial Regex Tried();

    [GeneratedRegex(
        DeniedStep.NotAfterNo
            + @"\b(?:slowing|coasting|(?:running|winding|spinning)\W+down|(?:nearly|almost|not\W+quite)\W+(?:stopped|at\W+rest|still|standing|there))\b",
        Free
    )]
    private static partial Regex Coasting();

    [GeneratedRegex(
        DeniedStep.NotAfterNo
            + @"\b(?:still|kept|left|engine|motor)\W+(?:(?!(?:not|no|never)\b)\w+\W+)?(?:idling|idles|ticking(?:\W*over)?)\b",
        Free
    )]
    private static partial Regex Idling();

    [GeneratedRegex(@"\b(?:until|till|then|waited|wait|now|after\w*|before)\b", Free)]
    private static partial Regex Waited();

    [GeneratedRegex(
        DeniedStep.NotAfterNo
            + @"\b(?:held|hanging|hangs?|kept|supported|up)\W+(?:up\W+)?(?:by|on|in)\W+(?:the\W+|their\W+|its\W+)?(?:(?:lift|hydraulic)\W+)*(?:cylinders?|rams?|hydraulics)\b",
        Free
    )]
    private static partial Regex HeldByPressure();

    [GeneratedRegex(
        DeniedStep.NotAfterNo
            + @"\bhung\W+(?:open|unlocked)\b|"
            + DeniedStep.NotAfterNo
            + @"\bkey\W+(?:(?:is|was|still|left)\W+)*in\W+(?:it|the\W+(?:lock|padlock))\b|"
            + DeniedStep.NotAfterNo
            + @"\b(?:spare|second|other|master)\W+key\W+(?:(?:is|was|stays?|left)\W+)*(?:with|held\W+by|given\W+to)\W+(?!(?:the\W+)?(?:lead|safe|office|supervisor|manager|management|me|us|nobody|no\W+one)\b)",
        Free
    )]
    private static partial Regex Open();

    [GeneratedRegex(
        DeniedStep.NotAfterNo
            + @"\b(?:held|tied|wired|fixed|fastened|strapped|on)\W+(?:(?:on|up|back|down|together|in\W+place)\W+)*(?:with|by)\W+(?:\w+\W+)?(?:tape|wire(?!\W+clip)|string|rope|zip\W*ties?|cable\W*ties?)\b|"
            + DeniedStep.NotAfterNo
            + @"\b(?:taped|tied)\W+(?:on|up|back|in\W+place)\b|\b(?:until|till)\W+(?:the\W+|new\W+)*(?:bolts?|screws?|parts?|clips?|nuts?)\W+(?:come|arrive|are\W+(?:here|in))\b",
        Free
    )]
    private static partial Regex Taped();

    [GeneratedRegex(
        @"(?<!\b(?:no|nothing|never|not|neither)\W+(?:\w+\W+)?)\b(?:keeps?|kept|carry|carries|carried|goes|went|stays?|stayed)\W+(?:on\W+)?(?:running|turning|spinning|going)\W+(?:when|with|after|though|while|as)\W+(?:\w+\W+){0,3}(?:(?:gets?|got|getting)\W+(?:up|off|down)|stands?\W+up|stood\W+up|(?:leaves?|left|off)\W+the\W+seat)\b",
        Free
    )]
    private static partial Regex RunsOn();
}
