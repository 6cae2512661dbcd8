using ServiceRules.Application.Accounts;
using ServiceRules.Application.Keeping;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Ledger;
using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Keeping;

/// <summary>Holds and whoever sent a record that does not name them.</summary>
public abstract class SenderKeptContract : DrawerContract
{
    private const string Sender = "lead-09";

    private static readonly Correction Why = new("officer-01", "as the policy of the site has it");

    private protected SenderKeptContract(Func<Drawer> drawer)
        : base(drawer) { }

    private async Task<Counter> FiledAsync()
    {
        var counter = new Counter(Drawer);
        await counter.SubmitAsync(
            Jobs.Job("J-1"),
            sender: new KnownSender("account:0123456789abcdef", Sender)
        );
        await counter.SubmitAsync(Jobs.Job("J-2"));
        Assert.NotNull(counter.Store.PseudonymOf(Sender));
        Assert.Equal(0, ForgetPerson.CountNaming(counter.Store, Sender));
        return counter;
    }

    private static void Hold(Counter counter, HoldDocument scope) =>
        Assert.IsType<FilingOutcome.Filed>(new KeepHolds(counter.Ledger).Add(scope, Why, AccountAct.Machine));

    [SkippableTheory]
    [InlineData("J-1", false, true)]
    [InlineData("J-1", true, true)]
    [InlineData("J-2", true, false)]
    public async Task Hold_OnARecord_KeepsWhoeverSentItFromBeingForgotten(
        string record,
        bool withContents,
        bool isKept
    )
    {
        await using var counter = await FiledAsync();
        Hold(counter, new() { Record = record });

        var outcome = new ForgetPerson(counter.Ledger).Forget(
            Sender,
            new("officer-01", "asked for it"),
            withContents
        );

        if (!isKept)
        {
            Assert.IsType<FilingOutcome.Filed>(outcome);
            return;
        }

        Assert.Contains(
            "hold `H-1`",
            Assert.IsType<FilingOutcome.Refused>(outcome).Refusal.What,
            StringComparison.Ordinal
        );
        Assert.NotNull(counter.Store.PseudonymOf(Sender));
    }

    [SkippableFact]
    public async Task Hold_OnAPerson_KeepsTheRecordsThatTheySent()
    {
        await using var counter = await FiledAsync();
        Assert.IsType<FilingOutcome.Filed>(
            RetentionOfLog.Set(
                counter.Ledger,
                new()
                {
                    Records = 1,
                    Assessments = 1,
                    Reports = 1,
                },
                Why,
                AccountAct.Machine
            )
        );
        Hold(counter, new() { Person = Sender });

        var run = new RunRetention(counter.Ledger).Run(new(2040, 1, 1), AccountAct.Service, false);

        Assert.Contains(run.Held, held => held is { Record: "J-1", Hold: "H-1" });
        Assert.Equal("J-2", Assert.Single(run.Due));
        Assert.NotEmpty(counter.Rows.Versions("J-1"));
    }
}
