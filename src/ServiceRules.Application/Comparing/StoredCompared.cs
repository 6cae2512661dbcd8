using System.Collections.Immutable;

namespace ServiceRules.Application.Comparing;

/// <summary>What stored records would come to by other rules.</summary>
/// <param name="Changes">Everything that the two say differently.</param>
/// <param name="Totals">How many there were of what.</param>
/// <param name="Turned">The records that would come out otherwise, the newest first.</param>
/// <param name="NotKept">How many records could not be judged, since their content is no longer kept.</param>
public sealed record StoredCompared(
    ImmutableArray<FolderChange> Changes,
    ComparedTotals Totals,
    ImmutableArray<RecordCompared> Turned,
    int NotKept
);
