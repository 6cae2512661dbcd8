using ServiceRules.Application.Ledger;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Pages.Filed;

namespace ServiceRules.Host.Packs;

/// <summary>That rules came into force, as a page tells it.</summary>
public sealed record ShownActivation(string Digest, string Since, string By, string Reason, long? Entry)
{
    internal static ShownActivation Of(ILedgerReading log, ToldActivation told, Caller caller) =>
        new(
            told.Digest,
            ShownComment.Time(told.Since),
            told.By is null ? "" : ShownComment.Who(log, told.By, caller),
            told.Reason,
            told.Entry
        );
}
