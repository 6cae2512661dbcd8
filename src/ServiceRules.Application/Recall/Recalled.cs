using System.Collections.Immutable;
using ServiceRules.Application.Filed;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Recall;

/// <summary>What a gauge found out comes to over the records.</summary>
public sealed record Recalled
{
    /// <summary>What was found wrong.</summary>
    public required FoundError Found { get; init; }

    /// <summary>What the gauge is, as the records say; null when no record names it.</summary>
    public required InstrumentKind? Kind { get; init; }

    /// <summary>Records that name the gauge within the stated time, by day.</summary>
    public required ImmutableArray<RecalledRecord> Records { get; init; }

    /// <summary>Records that name the gauge outside the stated time.</summary>
    public required int OutsideTheTime { get; init; }

    /// <summary>Every gauge that the records name, for who misspelt this one.</summary>
    public required ImmutableArray<Id<Instrument>> Gauges { get; init; }

    /// <summary>What the files came to, bad ones among them.</summary>
    public required FilesRead Files { get; init; }

    /// <summary>Released jobs that would not have gone out, or of which it cannot be told.</summary>
    public IEnumerable<RecalledRecord> InDoubt =>
        Records.Where(record => record.Release != RecallAnswer.Stands);
}
