using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Formats.Tests.Json;

internal enum ShedMood
{
    CalmAndDry,
    Busy,
    Closed,
}

internal sealed record Gauge(string Id, PrintedLength Thickness, string? Owner);

internal abstract record Note
{
    internal sealed record Seen(string Gauge, int Count) : Note;

    internal sealed record Said(string Words) : Note;
}

/// <summary>A small document that uses each kind of shape once.</summary>
internal sealed record Shed(
    string Id,
    ShedMood Mood,
    decimal? Share,
    bool Locked,
    int First,
    int? Last,
    ImmutableArray<Gauge> Gauges,
    ImmutableArray<Note> Notes,
    ImmutableSortedDictionary<string, int>? Hooks,
    string? Remark
)
{
    public bool SameAs(Shed other) =>
        this with
        {
            Gauges = [],
            Notes = [],
            Hooks = null,
        } == other with { Gauges = [], Notes = [], Hooks = null }
        && Gauges.SequenceEqual(other.Gauges)
        && Notes.SequenceEqual(other.Notes)
        && (Hooks ?? ImmutableSortedDictionary<string, int>.Empty).SequenceEqual(
            other.Hooks ?? ImmutableSortedDictionary<string, int>.Empty
        );
}
