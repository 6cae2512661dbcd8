using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>One stretch of hands-on work of one person.</summary>
/// <param name="Person">Whose hands.</param>
/// <param name="Start">The entry that begins it.</param>
/// <param name="Stop">The entry that ends it; null: the record shows no end.</param>
public sealed record WorkInterval(Id<Participant> Person, OrderedEvent Start, OrderedEvent? Stop)
{
    /// <summary>The stretch of the timeline.</summary>
    public TimelineInterval Interval => new(Start.Place(), Stop?.Place());
}
