using ServiceRules.Application.Accounts;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Packs;

namespace ServiceRules.Application.Rejudging;

/// <summary>
/// Has the stored history judged again by the rules in force: what is to be done, the act and its entry of the log become durable
/// together. One is under way at a time, since one set of rules is in force.
/// </summary>
public sealed class BeginRejudging(OpenLedger ledger, IRulesStore store)
{
    /// <param name="digest">Names the packs and sheets.</param>
    /// <param name="reason">Why, where somebody says it.</param>
    /// <param name="by">Who asks, as acts name it.</param>
    /// <exception cref="LedgerStoreException">The store could not do it.</exception>
    public RejudgingBegun Begin(string digest, string? reason, string by)
    {
        if (store.Book(digest) is null)
        {
            return new RejudgingBegun.NotStored();
        }

        return new LoggedActs(ledger).Write<RejudgingBegun>(
            (log, note) =>
            {
                if (log.Packs.InForce() is not { } inForce || inForce.Digest != digest)
                {
                    return new RejudgingBegun.NotInForce(log.Packs.InForce()?.Digest ?? "none");
                }

                if (log.Rejudgings.Running() is { } running)
                {
                    if (running.Digest == digest)
                    {
                        return new RejudgingBegun.Running(running);
                    }

                    // By rules that are not in force any more: no page of it found that out yet.
                    log.Rejudgings.End(running.Number, ledger.Now);
                }

                note(
                    new AccountAct(ledger.Now, AccountAct.RejudgingBegun, by, AccountAct.OfRules(digest))
                    {
                        Detail = reason,
                    }
                );
                return new RejudgingBegun.Begun(
                    log.Rejudgings.Begin(new RejudgingJob(0, digest, by, ledger.Now) { Reason = reason })
                );
            }
        );
    }
}
