using System.Globalization;
using System.Text;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Keeping;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Submitting;
using ServiceRules.Formats.Ledger;
using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Keeping;

/// <summary>What every database must keep, and what it must remove when its time is over.</summary>
public abstract class KeepingContract : DrawerContract
{
    // J-1 is of 2026-04-13, J-2 of the day after.
    private static readonly DateOnly LastDayOfFirst = new(2029, 4, 13);
    private static readonly DateOnly Later = new(2040, 1, 1);
    private static readonly Correction Why = new("officer-01", "as the policy of the site has it");

    private protected KeepingContract(Func<Drawer> drawer)
        : base(drawer) { }

    private async Task<Counter> FiledAsync()
    {
        var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"), "first");
        await counter.SubmitAsync(Jobs.Job("J-2"));
        return counter;
    }

    private static void Set(Counter counter, Retention years) =>
        Assert.IsType<FilingOutcome.Filed>(
            RetentionOfLog.Set(counter.Ledger, years, Why, AccountAct.Machine)
        );

    private static void Hold(Counter counter, HoldDocument scope) =>
        Assert.IsType<FilingOutcome.Filed>(new KeepHolds(counter.Ledger).Add(scope, Why, AccountAct.Machine));

    private static RetentionRun Run(Counter counter, DateOnly today, bool isDry = false) =>
        new RunRetention(counter.Ledger).Run(today, AccountAct.Service, isDry);

    private static string? WhyNone(Counter counter, string record) =>
        new TellSubject(counter.Store).Tell(record)[0].WhyNone;

    [SkippableFact]
    public async Task Retention_ThatWasNeverSet_RemovesNothing()
    {
        await using var counter = await FiledAsync();
        var size = counter.Store.Head!.Size;

        var run = Run(counter, Later);

        Assert.Empty(run.Due);
        Assert.Equal(0, run.Contents);
        Assert.Equal(size, counter.Store.Head!.Size);
    }

    [SkippableFact]
    public async Task Retention_OfRecords_RemovesThemTheDayAfterAndTheLogVerifiesStill()
    {
        await using var counter = await FiledAsync();
        var assessment = counter.Rows.Versions("J-1")[0].AssessmentHash!;
        Set(
            counter,
            new()
            {
                Records = 3,
                Assessments = 3,
                Reports = 3,
            }
        );
        Assert.Empty(Run(counter, LastDayOfFirst).Due);

        var dry = Run(counter, LastDayOfFirst.AddDays(1), isDry: true);
        Assert.Equal("J-1", Assert.Single(dry.Due));
        Assert.NotEmpty(counter.Rows.Versions("J-1"));
        var run = Run(counter, LastDayOfFirst.AddDays(1));

        Assert.Equal("J-1", Assert.Single(run.Due));
        Assert.Equal(dry.Contents, run.Contents);
        Assert.Empty(counter.Rows.Versions("J-1"));
        Assert.Null(counter.Rows.Answer(new SubmissionKey("alder", "first")));
        Assert.StartsWith("erased by retention on ", WhyNone(counter, "J-1"), StringComparison.Ordinal);
        Assert.Null(counter.Store.Sound(assessment));
        Assert.Null(WhyNone(counter, "J-2"));
        var verified = Drawer.Verify();
        Assert.Empty(verified.Faults);
        Assert.Equal(run.Contents, verified.Erased);
        Assert.Empty(Run(counter, LastDayOfFirst.AddDays(1)).Due);
        Assert.Equal(
            [AccountAct.RetentionRan, AccountAct.RetentionSet],
            counter.Folder.Accounts.Acts(null, 10).Select(act => act.What)
        );
        // Sent again it stands, and what was removed does not come back.
        Assert.IsType<SubmissionOutcome.Stood>(await counter.SubmitAsync(Jobs.Job("J-1")));
        Assert.NotNull(WhyNone(counter, "J-1"));
    }

    [SkippableFact]
    public async Task Retention_OfWhatTwoRecordsRestOn_LeavesItToTheOther()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        // The same registers on the same day.
        await counter.SubmitAsync(Jobs.Job("J-1", job => job["id"] = "J-other"));
        Set(counter, new() { Assessments = 1 });
        Hold(counter, new() { Record = "J-other" });

        var run = Run(counter, Later);

        Assert.Equal("J-1", Assert.Single(run.Due));
        Assert.Empty(Drawer.Verify().Faults);
        var kept = new TellSubject(counter.Store).Tell("J-other").Single();
        Assert.False(kept.IsDamaged);
        Assert.NotNull(kept.Assessments[^1].Assessment);
        Assert.NotNull(counter.Store.Kept(kept.Assessments[^1].Assessment!.Digests.Context));
    }

    [SkippableFact]
    public async Task Retention_ThatRemovedRegisters_KeepsNoLaterRecordOutThatRestsOnTheSame()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        Set(
            counter,
            new()
            {
                Records = 3,
                Assessments = 3,
                Reports = 3,
            }
        );
        var run = Run(counter, LastDayOfFirst.AddDays(1));
        Assert.Equal("J-1", Assert.Single(run.Due));

        // The same registers on the same day, found in a drawer years later.
        var late = await counter.SubmitAsync(Jobs.Job("J-1", job => job["id"] = "J-late"));
        await using var again = new Counter(Drawer);
        var later = await again.SubmitAsync(Jobs.Job("J-1", job => job["id"] = "J-later"));

        Assert.IsType<SubmissionOutcome.Stored>(late);
        Assert.IsType<SubmissionOutcome.Stored>(later);
        Assert.NotNull(WhyNone(counter, "J-1"));
        Assert.Null(WhyNone(counter, "J-late"));
        Assert.Empty(Drawer.Verify().Faults);
    }

    [SkippableFact]
    public async Task Registers_ThatWentWithAPerson_StillKeepOutWhatRestsOnThem()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        Assert.IsType<FilingOutcome.Filed>(
            new ForgetPerson(counter.Ledger).Forget("tech-02", new("officer-01", "asked for it"), true)
        );

        var late = await counter.SubmitAsync(Jobs.Job("J-1", job => job["id"] = "J-late"));

        Assert.Contains(
            "what an erasure removed",
            Assert.IsType<SubmissionOutcome.Declined>(late).Refusal.What,
            StringComparison.Ordinal
        );
    }

    [SkippableFact]
    public async Task Reason_ThatNamesSomebodyWhomTheLogKnows_IsRefusedAndNothingKept()
    {
        await using var counter = await FiledAsync();
        var size = counter.Store.Head!.Size;
        var named = Why with { Reason = "as TECH-02 asked" };

        var hold = new KeepHolds(counter.Ledger).Add(new() { Record = "J-1" }, named, AccountAct.Machine);
        var retention = RetentionOfLog.Set(
            counter.Ledger,
            new()
            {
                Records = 3,
                Assessments = 3,
                Reports = 3,
            },
            named,
            AccountAct.Machine
        );
        var amended = await counter.SubmitAsync(Jobs.Job("J-1", Jobs.Mend), null, named);
        var forgotten = new ForgetPerson(counter.Ledger).Forget("tech-99", named, true);

        Assert.Contains("names `tech-02`", Refused(hold), StringComparison.Ordinal);
        Assert.Contains("names `tech-02`", Refused(retention), StringComparison.Ordinal);
        Assert.Contains(
            "names `tech-02`",
            Assert.IsType<SubmissionOutcome.Declined>(amended).Refusal.What,
            StringComparison.Ordinal
        );
        Assert.IsType<FilingOutcome.Refused>(forgotten);
        Assert.Equal(size, counter.Store.Head!.Size);
        // Whoever is called otherwise, and what only looks like the name, is no hindrance.
        Hold(counter, new() { Record = "J-1" });
        Assert.IsType<FilingOutcome.Filed>(
            new KeepHolds(counter.Ledger).Lift(
                "H-1",
                Why with
                {
                    Reason = "gauge xtech-02 and tech-022",
                },
                AccountAct.Machine
            )
        );

        static string Refused(FilingOutcome outcome) =>
            Assert.IsType<FilingOutcome.Refused>(outcome).Refusal.What;
    }

    [SkippableFact]
    public async Task Hold_SentTwiceInTheSameWords_IsOneUntilItIsLifted()
    {
        await using var counter = await FiledAsync();
        var keeping = new KeepHolds(counter.Ledger);
        HoldDocument scope = new() { Record = "J-1" };
        Hold(counter, scope);
        var size = counter.Store.Head!.Size;

        Hold(counter, scope);
        Assert.Equal(size, counter.Store.Head!.Size);

        Assert.IsType<FilingOutcome.Filed>(
            keeping.Add(scope, Why with { Reason = "something else" }, AccountAct.Machine)
        );
        Assert.IsType<FilingOutcome.Filed>(keeping.Lift("H-1", Why, AccountAct.Machine));
        Hold(counter, scope);
        var all = HoldsOfLog.Read(counter.Store).All;
        Assert.Equal(["H-1", "H-2", "H-3"], all.Select(hold => hold.Id));
        Assert.Equal(Told(all), Told(HoldsOfLog.ReadByName(counter.Store).All));

        static IEnumerable<(string, long, long?)> Told(IEnumerable<Hold> holds) =>
            holds.Select(hold => (hold.Id, hold.Entry.Index, hold.Lifted?.Index));
    }

    [SkippableFact]
    public async Task Holds_ThatARecordFallsUnder_AreTold()
    {
        await using var counter = await FiledAsync();
        Hold(counter, new() { Record = "J-1" });
        Hold(counter, new() { Record = "J-none" });
        Hold(counter, new() { Until = LastDayOfFirst });
        Hold(counter, new() { Person = "tech-99" });
        Assert.IsType<FilingOutcome.Filed>(
            new KeepHolds(counter.Ledger).Lift("H-1", Why, AccountAct.Machine)
        );

        var holds = HoldsOfLog.ReadByName(counter.Store).About(counter.Store, "J-1");

        Assert.Equal([("H-1", false), ("H-3", true)], holds.Select(hold => (hold.Id, hold.Holds)));
    }

    [SkippableFact]
    public async Task Comments_AndHoldsThatWereLifted_GoWithThePersonWhomTheyName()
    {
        await using var counter = await FiledAsync();
        Assert.IsType<FilingOutcome.Filed>(
            new AddComment(counter.Ledger).Add(new("J-1", "ask tech-02 about the gauge"), "officer-01")
        );
        Hold(counter, new() { Person = "tech-02" });
        Assert.IsType<FilingOutcome.Filed>(
            new KeepHolds(counter.Ledger).Lift("H-1", Why, AccountAct.Machine)
        );

        Assert.IsType<FilingOutcome.Filed>(
            new ForgetPerson(counter.Ledger).Forget("tech-02", Why, true, AccountAct.Machine)
        );

        Assert.DoesNotContain(
            counter.Store.Contents(),
            hash =>
                Encoding
                    .UTF8.GetString(counter.Store.Content(hash)!.Value.Span)
                    .Contains("tech-02", StringComparison.Ordinal)
        );
        Assert.DoesNotContain(
            counter.Store.Entries(0),
            entry => Encoding.UTF8.GetString(entry.Bytes.Span).Contains("tech-02", StringComparison.Ordinal)
        );
        Assert.Equal(
            "what it named was erased since",
            Assert.Single(HoldsOfLog.Read(counter.Store).All).Told
        );
        Assert.Empty(Drawer.Verify().Faults);
    }

    [SkippableTheory]
    [InlineData("record", "J-1")]
    [InlineData("machine", "M-02")]
    [InlineData("person", "tech-02")]
    [InlineData("until", "2026-04-13")]
    public async Task Hold_OfWhateverKind_KeepsWhatItNamesUntilItIsLifted(string by, string what)
    {
        await using var counter = await FiledAsync();
        Set(
            counter,
            new()
            {
                Records = 1,
                Assessments = 1,
                Reports = 1,
            }
        );
        Hold(
            counter,
            new()
            {
                Record = by == "record" ? what : null,
                Machine = by == "machine" ? what : null,
                Person = by == "person" ? what : null,
                Until =
                    by == "until"
                        ? DateOnly.ParseExact(what, "yyyy-MM-dd", CultureInfo.InvariantCulture)
                        : null,
            }
        );

        var run = Run(counter, Later);
        Assert.Contains(run.Held, held => held is { Record: "J-1", Hold: "H-1" });
        Assert.DoesNotContain("J-1", run.Due);
        Assert.Null(WhyNone(counter, "J-1"));
        Assert.Equal(by is "record" or "until", run.Due.Contains("J-2"));

        Assert.IsType<FilingOutcome.Filed>(
            new KeepHolds(counter.Ledger).Lift("H-1", Why, AccountAct.Machine)
        );
        Assert.IsType<FilingOutcome.Refused>(
            new KeepHolds(counter.Ledger).Lift("H-1", Why, AccountAct.Machine)
        );
        Assert.Contains("J-1", Run(counter, Later).Due);
        Assert.Empty(Drawer.Verify().Faults);
    }

    [SkippableTheory]
    [InlineData("record", true)]
    [InlineData("record", false)]
    [InlineData("person", false)]
    [InlineData("other", true)]
    public async Task Hold_StopsThatAPersonIsForgotten(string by, bool withContents)
    {
        await using var counter = await FiledAsync();
        Hold(
            counter,
            new()
            {
                Record = by == "record" ? "J-2" : null,
                Person = by == "person" ? "tech-02" : null,
                Machine = by == "other" ? "M-99" : null,
            }
        );

        var outcome = new ForgetPerson(counter.Ledger).Forget(
            "tech-02",
            new("officer-01", "asked for it"),
            withContents
        );

        if (by == "other")
        {
            Assert.IsType<FilingOutcome.Filed>(outcome);
            return;
        }

        var refused = Assert.IsType<FilingOutcome.Refused>(outcome);
        Assert.Contains("hold `H-1`", refused.Refusal.What, StringComparison.Ordinal);
        Assert.NotNull(counter.Store.PseudonymOf("tech-02"));
    }

    [SkippableFact]
    public async Task Settings_ThatCannotBe_AreRefused()
    {
        await using var counter = await FiledAsync();

        Assert.IsType<FilingOutcome.Refused>(
            RetentionOfLog.Set(counter.Ledger, new() { Records = 3 }, Why, AccountAct.Machine)
        );
        Assert.IsType<FilingOutcome.Refused>(
            new KeepHolds(counter.Ledger).Add(new(), Why, AccountAct.Machine)
        );
        Assert.IsType<FilingOutcome.Refused>(
            new KeepHolds(counter.Ledger).Add(
                new() { From = Later, Until = LastDayOfFirst },
                Why,
                AccountAct.Machine
            )
        );
        Assert.IsType<FilingOutcome.Refused>(
            new KeepHolds(counter.Ledger).Lift("H-1", Why, AccountAct.Machine)
        );
        Assert.Empty(counter.Folder.Accounts.Acts(null, 10));
    }
}
