using ServiceRules.Application.Accounts;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Submitting;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Ledger;
using ServiceRules.Formats.Registers;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Waiving;

/// <summary>
/// Enters and withdraws waivers of a site while it is served. Each is an entry of the log and an act, durable together with what
/// judges by it from then on. What was judged stays as it was judged.
/// </summary>
/// <param name="ledger">The log.</param>
/// <param name="site">The registers and rules of the site, each part with where it stands.</param>
/// <param name="name">The name of the site.</param>
/// <param name="areSeveral">Whether the installation is one of several sites.</param>
public sealed class KeepWaivers(OpenLedger ledger, RuleLibrary site, string name, bool areSeveral)
{
    /// <param name="book">The packs in force.</param>
    /// <param name="waiver">The waiver; who loosens the rule answers for it.</param>
    /// <param name="caller">Who asks, as acts name it.</param>
    /// <exception cref="LedgerStoreException">The store could not do it.</exception>
    public WaiverOutcome Enter(RuleBook book, Waiver waiver, string caller)
    {
        ArgumentNullException.ThrowIfNull(book);
        ArgumentNullException.ThrowIfNull(waiver);
        WaiverOutcome? came = null;
        return Come(
            ledger.File(log =>
            {
                JudgeAmongStored.HoldAgainst(log, areSeveral);
                var kept = log.Waivers.Of(name);
                if (kept.LastOrDefault(one => SiteWaivers.Counting(one) == waiver) is { } standing)
                {
                    came = new WaiverOutcome.Stood(standing);
                    return new FilingPlan.File([], []);
                }

                var unfit = PackCheck.OfWaiver(
                    site,
                    book,
                    [.. kept.Select(SiteWaivers.Counting).OfType<Waiver>()],
                    waiver
                );
                if (!unfit.IsEmpty)
                {
                    came = new WaiverOutcome.Unfit(unfit);
                    return new FilingPlan.File([], []);
                }

                var content = CanonicalForm.Of(WaiverFormat.Current.Write(waiver)).Bytes;
                var draft = new EntryDraft(EntryKind.Waiver, FileSiteDocument.SubjectOf(waiver), content)
                {
                    Person = waiver.By.Text,
                };
                var act = Act(AccountAct.WaiverEntered, caller, draft.Subject) with { Detail = name };
                return new FilingPlan.File([new FilingPart.New(draft), LoggedActs.Part(act)], [])
                {
                    Also = (log, placed) =>
                    {
                        var number = log.Waivers.Keep(
                            name,
                            draft.Subject,
                            draft.Hash,
                            placed[0].Entry.Entry.At,
                            placed[0].Entry.Index
                        );
                        log.Accounts.Keep(act with { Entry = placed[1].Entry.Index });
                        came = new WaiverOutcome.Done(
                            log.Waivers.Of(name).Single(one => one.Number == number)
                        );
                    },
                };
            }),
            () => came!
        );
    }

    /// <param name="number">Which.</param>
    /// <param name="reason">Why; it stands in the act.</param>
    /// <param name="caller">Who asks, as acts name it.</param>
    /// <exception cref="LedgerStoreException">The store could not do it.</exception>
    public WaiverOutcome Withdraw(long number, string reason, string caller)
    {
        WaiverOutcome? came = null;
        return Come(
            ledger.File(log =>
            {
                JudgeAmongStored.HoldAgainst(log, areSeveral);
                if (log.Waivers.Of(name).FirstOrDefault(one => one.Number == number) is not { } kept)
                {
                    came = new WaiverOutcome.Unknown();
                    return new FilingPlan.File([], []);
                }

                if (kept.WithdrawnAt is not null)
                {
                    came = new WaiverOutcome.Stood(kept);
                    return new FilingPlan.File([], []);
                }

                var act = Act(AccountAct.WaiverWithdrawn, caller, kept.Subject) with { Detail = reason };
                return new FilingPlan.File([LoggedActs.Part(act)], [])
                {
                    Also = (log, placed) =>
                    {
                        log.Waivers.Withdraw(number, act.At, placed[0].Entry.Index);
                        log.Accounts.Keep(act with { Entry = placed[0].Entry.Index });
                        came = new WaiverOutcome.Done(
                            log.Waivers.Of(name).Single(one => one.Number == number)
                        );
                    },
                };
            }),
            () => came!
        );
    }

    private AccountAct Act(string what, string caller, string subject) =>
        new(ledger.Now, what, caller, AccountAct.OfWaiver(subject));

    private static WaiverOutcome Come(FilingOutcome outcome, Func<WaiverOutcome> came) =>
        outcome switch
        {
            FilingOutcome.Filed => came(),
            FilingOutcome.Refused refused => new WaiverOutcome.Declined(refused.Refusal),
            FilingOutcome.Broken broken => throw new BrokenLogException(broken.Fault),
            _ => throw new InvalidOperationException("an unknown outcome of a filing"),
        };
}
