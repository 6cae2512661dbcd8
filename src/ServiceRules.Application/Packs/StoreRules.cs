using ServiceRules.Application.Accounts;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Packs;

/// <summary>Keeps packs and sheets that were checked, so that they may be put in force.</summary>
public sealed class StoreRules(OpenLedger ledger)
{
    private readonly LoggedActs acts = new(ledger);

    /// <param name="rules">The packs and sheets.</param>
    /// <param name="by">Who did it, as acts name it.</param>
    /// <returns>Whether they were not kept before; else nothing changed.</returns>
    /// <exception cref="LedgerStoreException">The store could not do it.</exception>
    public bool Keep(RuleDocument rules, string by)
    {
        ArgumentNullException.ThrowIfNull(rules);
        return acts.Write(
            (log, note) =>
            {
                var now = ledger.Now;
                if (!log.Packs.Keep(rules.Digest, rules.Bytes, now))
                {
                    return false;
                }

                note(new AccountAct(now, AccountAct.RulesStored, by, AccountAct.OfRules(rules.Digest)));
                return true;
            }
        );
    }
}
