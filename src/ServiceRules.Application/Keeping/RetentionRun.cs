using System.Collections.Immutable;

namespace ServiceRules.Application.Keeping;

/// <summary>What came of a run.</summary>
/// <param name="Due">Records of which something was removed, or would be.</param>
/// <param name="Contents">How many contents.</param>
/// <param name="Held">Records of which something is due and kept by a hold.</param>
public sealed record RetentionRun(
    ImmutableArray<string> Due,
    int Contents,
    ImmutableArray<RetentionRun.HeldRecord> Held
)
{
    /// <summary>A record that is kept.</summary>
    public sealed record HeldRecord(string Record, string Hold);
}
