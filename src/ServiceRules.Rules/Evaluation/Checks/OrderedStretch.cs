using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>A part of a timeline in which steps have an order.</summary>
/// <param name="Order">The order asked.</param>
/// <param name="Entries">The entries of those kinds in this part, in judged order.</param>
/// <param name="Frame">The job.</param>
/// <param name="Work">The entry that begins (or ends) the work; null: no work has begun.</param>
internal sealed record OrderedStretch(
    ImmutableArray<TimelineEventKind> Order,
    ImmutableArray<OrderedEvent> Entries,
    JobFrame Frame,
    OrderedEvent? Work
)
{
    /// <summary>It leads up to work.</summary>
    public bool IsBeforeWork { get; init; }

    /// <summary>No hands have been in yet.</summary>
    public bool CanStillBeMended => Work is null;

    /// <summary>The sources that its entries name; a single null where none does.</summary>
    public ImmutableArray<Id<EnergySource>?> Sources
    {
        get
        {
            var named = Entries
                .Select(entry => entry.Event.Source)
                .OfType<SourceReference.One>()
                .Select(one => (Id<EnergySource>?)one.Source)
                .Distinct()
                .ToImmutableArray();
            return named.IsEmpty ? [null] : named;
        }
    }

    /// <summary>Entries of a kind that speak of a source, or of none in particular.</summary>
    /// <param name="kind">The kind.</param>
    /// <param name="source">The source; null: any.</param>
    /// <param name="afterToo">Also those that stand after the start of the work.</param>
    public List<OrderedEvent> Of(TimelineEventKind kind, Id<EnergySource>? source, bool afterToo) =>
        [
            .. Entries.Where(entry =>
                entry.Event.Kind == kind
                && (afterToo || !IsBeforeWork || Work is null || entry.Place() <= Work.Place())
                && (source is not { } one || entry.Event.Source is null || entry.Event.SpeaksOf(one))
            ),
        ];

    /// <summary>The plain name of a source, as the procedure has it.</summary>
    public string Named(Id<EnergySource> source) =>
        Frame.Procedure?.Sources.FirstOrDefault(known => known.Id == source) is { } known
            ? TimelineWords.Named(known)
            : source.Text;
}
