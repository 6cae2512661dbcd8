using System.Collections.Immutable;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>
/// What was heard and felt of contact at one place since anything that moves it was turned. Contact does not change by itself: where
/// it was noted in two ways, noting it again settles nothing, however often.
/// </summary>
/// <param name="Seen">The contact noted; none where there is none, or it was noted in two ways.</param>
/// <param name="Believed">
/// What it may be: that contact; of two ways what was noted last, where that was noted twice running, else every one of them. What
/// all of these show is shown.
/// </param>
/// <param name="Contradiction">What was noted in two ways; none where it was not.</param>
internal sealed record ContactEvidence(
    ContactState? Seen,
    ImmutableArray<ContactState> Believed,
    Contradiction? Contradiction
)
{
    public static ContactEvidence Of(IEnumerable<LoggedReading> current)
    {
        var noted = current
            .Where(reading => reading.Observed is Observation.Contact)
            .Select(reading => (((Observation.Contact)reading.Observed).State, reading.At))
            .ToList();
        if (noted.Count == 0)
        {
            return new(null, [], null);
        }

        var last = noted[^1];
        var other = noted.FindLastIndex(each => each.State != last.State);
        return other < 0
            ? new(last.State, [last.State], null)
            : new(
                null,
                noted.Count - other > 2
                    ? [last.State]
                    : [.. noted.Select(each => each.State).Distinct().Order()],
                new(Wording.Of(noted[other].State), noted[other].At, Wording.Of(last.State), last.At)
            );
    }
}
