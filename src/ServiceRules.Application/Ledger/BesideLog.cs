using ServiceRules.Application.Accounts;
using ServiceRules.Application.Packs;

namespace ServiceRules.Application.Ledger;

/// <summary>The tables that repeat beside the log what its entries say.</summary>
/// <param name="Accounts">Where acts stand.</param>
/// <param name="Rules">Where it stands which packs and sheets judge.</param>
public sealed record BesideLog(IAccountReading Accounts, IRulesStore Rules);
