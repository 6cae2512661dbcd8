using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Ledger;

/// <summary>What a checkpoint says of the log: so many entries, with this root.</summary>
/// <param name="Where">Where the checkpoint was found.</param>
/// <param name="IsOutside">Whether it was kept apart from the log.</param>
internal sealed record ClaimedTree(string Where, long Size, TreeHash Root, bool IsOutside);
