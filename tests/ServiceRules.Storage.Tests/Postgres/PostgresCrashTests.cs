using ServiceRules.Application.Ledger;
using ServiceRules.Application.Submitting;
using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Postgres;

/// <summary>A server that crashes: one of its own, since it comes back the later the more others did there.</summary>
public sealed class PostgresCrashTests(PostgresFixture fixture)
    : DrawerContract(() => new Drawer(fixture.Server.NewDatabase())),
        IClassFixture<PostgresFixture>
{
    [SkippableFact]
    public async Task Submit_ServerThatCrashesAndComesBack_SaysSoAndGoesOnWithoutBeingOpenedAgain()
    {
        await using var counter = new Counter(Drawer);
        Assert.IsType<SubmissionOutcome.Stored>(await counter.SubmitAsync(Jobs.Job("J-1"), "one"));

        fixture.Server.Crash();
        var down = await counter.SubmitAsync(Jobs.Job("J-2"), "two");
        fixture.Server.Start();

        Assert.Equal(StoreTrouble.Gone, Assert.IsType<SubmissionOutcome.Trouble>(down).What);
        SubmissionOutcome up;
        do
        {
            // Connections that were open before are found to be dead one by one.
            up = await counter.SubmitAsync(Jobs.Job("J-2"), "two");
        } while (up is SubmissionOutcome.Trouble { What: StoreTrouble.Gone });
        Assert.IsType<SubmissionOutcome.Stored>(up);
        Assert.Empty(Drawer.Verify().Faults);
    }

    [SkippableFact]
    public async Task Submit_ServerCrashingUnderLoad_LosesAndDoublesNothing()
    {
        await using var one = new Counter(Drawer);
        await using var other = new Counter(Drawer);
        var senders = Enumerable
            .Range(0, 24)
            .Select(at => Task.Run(() => Send(at % 2 == 0 ? one : other, at)))
            .ToList();

        for (var crash = 0; crash < 2; crash++)
        {
            await Task.Delay(300);
            fixture.Server.Crash();
            fixture.Server.Start();
        }

        var answers = await Task.WhenAll(senders);
        var verified = Drawer.Verify();
        Assert.Empty(verified.Faults);
        Assert.Equal(1 + (2 * 24), verified.Size);
        Assert.Equal(24, one.All().Records.Count);
        Assert.All(answers, answer => Assert.NotNull(one.Store.Content(HashOf(answer.Record.Entry.Content))));
        Assert.Equal(24, answers.Select(answer => answer.Record.Index).Distinct().Count());

        static async Task<StoredSubmission> Send(Counter counter, int at)
        {
            while (true)
            {
                switch (await counter.SubmitAsync(Jobs.Job($"J-{at}"), $"key-{at}"))
                {
                    case SubmissionOutcome.Stored stored:
                        return stored.Submission;
                    case SubmissionOutcome.Trouble:
                        await Task.Delay(50);
                        break;
                    case var unexpected:
                        throw new InvalidOperationException(unexpected.ToString());
                }
            }
        }

        static Evidence.ContentHash HashOf(string text) =>
            Evidence.ContentHash.TryParse(text, out var hash)
                ? hash
                : throw new InvalidOperationException(text);
    }
}
