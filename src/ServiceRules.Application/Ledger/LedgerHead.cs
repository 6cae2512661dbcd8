using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Ledger;

/// <summary>How far a log had grown, and its signed word for it.</summary>
/// <param name="Size">Number of entries.</param>
/// <param name="Root">Root of the tree over them.</param>
/// <param name="Note">The signed checkpoint that says so.</param>
public sealed record LedgerHead(long Size, TreeHash Root, string Note);
