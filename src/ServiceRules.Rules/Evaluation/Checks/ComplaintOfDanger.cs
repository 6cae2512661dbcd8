using System.Text.RegularExpressions;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// A complaint whose words tell of somebody hurt, or of a cut-out that fails, in a record that enters no safety defect: whether
/// there is one has to be said before the machine goes out. Read for a few turns of English; others are for a person to read.
/// </summary>
internal static partial class ComplaintOfDanger
{
    public static TimelineFault? Of(TimelineReading reading) =>
        reading.Frame.Record.Complaint is { } complaint
        && (Hurt().IsMatch(complaint) || Fails().IsMatch(complaint))
        && reading.Of(TimelineEventKind.SafetyDefectFound).IsEmpty
            ? new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The complaint says `{complaint}`, and the record enters no safety defect.",
                [],
                "Look into it before the machine goes out; enter it as a safety defect found, and what put it right or that there was none.",
                ["/complaint"]
            )
            : null;

    [GeneratedRegex(
        @"(?<!\b(?:no|not|nobody|none|never|without|nothing|(?:no|nearly)\W+one|nearly|almost)\W+(?:\w+\W+){0,2})\b(?:injury|injuries|injured"
            + @"|(?:was|got|been|is|were)\W+hurt"
            + @"|(?:lost|cut|crushed|trapped|hurt|caught|pinched|nicked|sliced|gashed|severed|burnt|burned)\W+(?:off\W+)?(?:(?:an?|the|his|her|their|my|own|one|two|tip|of|left|right)\W+){0,4}(?:finger\w*|thumbs?|hands?|foot|feet|toes?|arms?|legs?))\b",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex Hurt();

    [GeneratedRegex(
        @"\b(?:(?:seat|safety|presence|bail|kill|dead\W?man(?:'?s)?)\W+switch(?:es)?|cut-?\W?outs?|interlocks?|emergency\W+stop|e-stop)\W+"
            + @"(?:(?:is|are|was|were|has|have|been|seems?|looks?|still|also)\W+)*"
            + @"(?:not\W+(?:work|stop|cut|trip)\w*|(?:does|did|do|will|would)\W+not|(?:doesn|didn|don|won|wouldn)'?t|no\W+longer|fail(?:s|ed|ing)?\b|faulty|broken|dead|bridged|bypassed|defeated|inoperative|taped|tied|stuck)"
            + @"|\b(?:reels?|engine|machine|units?|mower|it)\W+(?:keeps?|kept|carry|carries|stays?)\W+(?:on\W+)?(?:running|turning|spinning|going)\W+(?:when|with|after|though|while)\W+(?:\w+\W+){0,4}(?:seat|gets?\W+(?:up|off|down)|got\W+(?:up|off|down)|stands?\W+up|stood\W+up|bail)\b",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex Fails();
}
