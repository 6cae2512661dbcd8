using System.Collections.Immutable;
using System.Text.RegularExpressions;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// Words of how a source was proven dead that say the opposite: it started, it moved, pressure stayed. Free words are not
/// read further than that, and prove nothing dead by themselves; a pressure read is told by its own member.
/// </summary>
internal static partial class SaidLive
{
    /// <summary>An entry that proves something dead, and says of how that it was not.</summary>
    public static bool By(TimelineEvent entry) =>
        entry is { Kind: TimelineEventKind.IsolationVerified, Method: { } method } && Live().IsMatch(method);

    /// <summary>Such entries that no later proof of the same source makes good before hands go in.</summary>
    public static ImmutableArray<OrderedEvent> Standing(TimelineReading reading)
    {
        var proofs = reading.Of(TimelineEventKind.IsolationVerified);
        return
        [
            .. proofs.Where(entry =>
                By(entry.Event)
                && !proofs.Any(later =>
                    later.Place() > entry.Place()
                    && !By(later.Event)
                    && (later.Event.Source is SourceReference.All || later.Event.Source == entry.Event.Source)
                    && !reading.Works.Any(work =>
                        work.Start.Place() > entry.Place() && work.Start.Place() < later.Place()
                    )
                )
            ),
        ];
    }

    [GeneratedRegex(
        @"(?<!\b(?:no|nothing|neither|nor|not an?y?|without)\W+)\b(?:it|engine|motor|reels?|machine|units?|blades?|cylinder)\W+(?:(?:then|still|just|briefly|has|had|suddenly)\W+)?(?:fired|fires|ran|runs|running|started|starts|cranked|cranks|turned|turns|turning|moved|moves|moving|spun|spins|live)\b(?!\W+(?:off|out|by\W+hand|with\W+a\W+tool)\b)"
            + @"|(?<!\b(?:no|nor|zero|without)\W+)\bpressure\W+(?:(?:then|still|had|has)\W+)?(?:remained|remains|stayed|stays|held|holds|rose|left|there)\b(?!\W+(?:at\W+)?(?:0|zero|nil)\b)"
            + @"|\bstill\W+(?:live|running|turning|moving|charged|pressuri[sz]ed|under\W+pressure)\b",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex Live();
}
