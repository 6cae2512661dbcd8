using System.Collections.Concurrent;
using System.Diagnostics;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;
using ServiceRules.Formats.Ledger;
using ServiceRules.Storage;
using ServiceRules.TestKit;
using Xunit.Abstractions;

namespace ServiceRules.Cli.Tests;

/// <summary>
/// The program is killed (signal 9) again and again while it files records. What it acknowledged on standard output is
/// there, with its content; nothing is there in half.
/// </summary>
public sealed class LedgerKillTests : IDisposable
{
    private const int Rounds = 10;
    private const int PerRound = 12;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly Product _product = new();
    private readonly ITestOutputHelper _told;

    public LedgerKillTests(ITestOutputHelper told) => _told = told;

    public void Dispose() => _product.Dispose();

    [SkippableFact]
    public void Add_KilledAgainAndAgain_LosesNothingAcknowledgedAndLeavesNothingHalf()
    {
        Skip.If(OperatingSystem.IsWindows(), "there is no signal 9");
        var seed = Environment.TickCount;
        var random = new Random(seed);
        var acknowledged = new HashSet<string>(StringComparer.Ordinal);
        var killed = 0;

        for (var round = 0; round < Rounds; round++)
        {
            // Some of the round before are sent again, as a device would that got no answer.
            var files = Enumerable
                .Range((round * PerRound) - 3, PerRound + 3)
                .Where(job => job >= 0)
                .Select(JobFile);
            killed += RunAndKill([.. files], random, acknowledged) ? 1 : 0;
            AssertThatAllIsThere(acknowledged, $"seed {seed}, round {round}");
        }

        var verified = Verify();
        _told.WriteLine(
            $"seed {seed}: {killed} of {Rounds} killed at work, {acknowledged.Count} acknowledged, {verified.Size} entries"
        );
        Assert.True(verified.Faults.IsEmpty, $"seed {seed}: {string.Join('\n', verified.Faults)}");
        Assert.InRange(killed, Rounds / 2, Rounds);
        Assert.InRange(acknowledged.Count, Rounds, Rounds * PerRound);
    }

    private string JobFile(int job)
    {
        var name = $"jobs/K-{job}.json";
        return File.Exists(_product.At(name))
            ? _product.At(name)
            : _product.Write(name, Fixtures.Changed("height-check", ("\"F-height-check\"", $"\"K-{job}\"")));
    }

    private bool RunAndKill(string[] files, Random random, HashSet<string> acknowledged)
    {
        using var process = Process.Start(
            new ProcessStartInfo(
                "dotnet",
                [
                    Path.Combine(AppContext.BaseDirectory, "servicerules.dll"),
                    "ledger",
                    "add",
                    .. files,
                    "--ledger",
                    _product.At("ledger"),
                ]
            )
            {
                RedirectStandardOutput = true,
                RedirectStandardError = true,
                WorkingDirectory = _product.Folder,
            }
        )!;
        using var lines = new BlockingCollection<string>();
        process.OutputDataReceived += (_, line) =>
        {
            if (line.Data is { } text)
            {
                lines.Add(text);
            }
            else
            {
                lines.CompleteAdding();
            }
        };
        process.ErrorDataReceived += (_, _) => { };
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();

        // After a number of answers, and then somewhere within a filing.
        var answers = random.Next(1, PerRound);
        while (answers > 0 && lines.TryTake(out var line, Patience))
        {
            acknowledged.Add(line.Split(':')[0]);
            answers--;
        }

        Thread.Sleep(random.Next(0, 40));
        var atWork = !process.HasExited;
        process.Kill();
        Assert.True(process.WaitForExit(Patience), "it survived signal 9");
        foreach (var line in lines.GetConsumingEnumerable())
        {
            acknowledged.Add(line.Split(':')[0]);
        }

        return atWork;
    }

    private void AssertThatAllIsThere(IEnumerable<string> acknowledged, string told)
    {
        using var folder = LedgerFolder.OpenOrCreate(_product.At("ledger"));
        var shelf = new CheckpointFolder(CheckpointFolder.Beside(_product.At("ledger")));
        var opening = OpenLedger.Open(folder.Store, shelf, folder.Signer, TimeProvider.System);
        var log = Assert.IsType<LedgerOpening.Opened>(opening).Ledger.Log;
        foreach (var id in acknowledged)
        {
            var kinds = log.About(id).Select(index => Read(log, index)).ToList();
            Assert.True(
                kinds.SequenceEqual([EntryKind.Record, EntryKind.Assessment]),
                $"{told}: {id} stands as {string.Join(", ", kinds)}"
            );
        }
    }

    private static EntryKind Read(ILedgerReading log, long index)
    {
        Assert.True(EntryReading.TryRead(log.Entry(index)!, out var entry, out var why), why);
        Assert.True(ContentHash.TryParse(entry.Entry.Content, out var hash));
        Assert.Equal(hash, ContentHash.Of(log.Content(hash)!.Value.Span));
        return entry.Entry.Kind;
    }

    private LedgerVerified Verify()
    {
        using var folder = LedgerFolder.OpenOrCreate(_product.At("ledger"));
        var outside = new CheckpointFolder(CheckpointFolder.Beside(_product.At("ledger"))).All().ToList();
        return new VerifyLedger(folder.Store, folder.Signer.Key).Verify(outside, folder.Store.Check());
    }
}
