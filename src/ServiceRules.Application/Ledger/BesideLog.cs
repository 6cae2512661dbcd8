using ServiceRules.Application.Accounts;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Waiving;

namespace ServiceRules.Application.Ledger;

/// <summary>The tables that repeat beside the log what its entries say.</summary>
/// <param name="Accounts">Where acts stand.</param>
/// <param name="Rules">Where it stands which packs and sheets judge.</param>
/// <param name="Waivers">Where waivers stand that were entered beside the registers.</param>
public sealed record BesideLog(IAccountReading Accounts, IRulesStore Rules, IWaiverReading Waivers);
