using ServiceRules.Application.Accounts;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Ledger;
using ServiceRules.Formats.Packs;

namespace ServiceRules.Application.Packs;

/// <summary>
/// Lets stored packs and sheets judge: the entry of the log, the activation and the act become durable together. Going back is
/// activating earlier ones again.
/// </summary>
public sealed class ActivateRules(OpenLedger ledger, IRulesStore store)
{
    /// <param name="digest">Names the packs and sheets.</param>
    /// <param name="person">Who answers for it; null: nobody is named.</param>
    /// <param name="reason">Why.</param>
    /// <param name="by">Who did it, as acts name it.</param>
    /// <exception cref="LedgerStoreException">The store could not do it.</exception>
    public ActivationOutcome Activate(string digest, string? person, string reason, string by)
    {
        if (store.Book(digest) is not { } bytes)
        {
            return new ActivationOutcome.NotStored();
        }

        if (!RulePackFormat.Book.Read(bytes).TryGet(out _, out _))
        {
            return new ActivationOutcome.NotRead();
        }

        ActivationOutcome? came = null;
        var outcome = ledger.File(log =>
        {
            if (log.Packs.InForce() is { } standing && standing.Digest == digest)
            {
                came = new ActivationOutcome.Stood(standing);
                return new FilingPlan.File([], []);
            }

            var draft = new EntryDraft(EntryKind.PackActivation, FileRules.Subject, bytes)
            {
                Person = person,
                Reason = reason,
            };
            var act = new AccountAct(ledger.Now, AccountAct.RulesActivated, by, AccountAct.OfRules(digest))
            {
                Detail = reason,
            };
            return new FilingPlan.File([new FilingPart.New(draft), LoggedActs.Part(act)], [])
            {
                Also = (transaction, placed) =>
                {
                    var entry = placed[0].Entry;
                    came = new ActivationOutcome.Activated(
                        transaction.Packs.Activate(
                            new RulesActivation(0, digest, entry.Entry.At, reason)
                            {
                                By = entry.Entry.By,
                                Entry = entry.Index,
                            }
                        )
                    );
                    transaction.Accounts.Keep(act with { Entry = placed[1].Entry.Index });
                },
            };
        });
        return outcome switch
        {
            FilingOutcome.Filed => came!,
            FilingOutcome.Refused refused => new ActivationOutcome.Declined(refused.Refusal),
            FilingOutcome.Broken broken => throw new BrokenLogException(broken.Fault),
            _ => throw new InvalidOperationException("an unknown outcome of a filing"),
        };
    }
}
