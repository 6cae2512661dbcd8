using ServiceRules.Application.Accounts;
using ServiceRules.Application.Ledger;
using ServiceRules.Storage;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>What is kept, and what is forgotten, by command: in a ledger of one site, and in one of several.</summary>
public sealed class KeepingCommandTests : IDisposable
{
    private const string Job = "F-height-check";
    private const string First = "Alder Reach Parks Trust";
    private const string Second = "Birch Hollow";

    private static readonly string[] Officer = ["--by", "officer-01", "--reason", "asked for it"];

    private readonly Product _product = new();

    public KeepingCommandTests() =>
        Good(_product.Run(["ledger", "add", Fixtures.PathOf("height-check"), "--ledger", Folder]));

    public void Dispose() => _product.Dispose();

    private string Folder => _product.At("ledger");

    [Fact]
    public void Hold_KeepsWhatItNamesUntilItIsLifted()
    {
        Good(Run(["hold", "add", "--record", Job, .. Officer]));
        Assert.Contains("record " + Job, Good(Run("hold", "list")).StandardOutput, StringComparison.Ordinal);

        var kept = Forget();
        Assert.True(kept.ExitCode == 1, kept.ToString());
        Assert.Contains("`H-1`", kept.StandardError, StringComparison.Ordinal);

        Good(Run(["hold", "lift", "H-1", .. Officer]));
        Assert.Contains("lifted", Good(Run("hold", "list")).StandardOutput, StringComparison.Ordinal);
        Assert.True(Run(["hold", "lift", "H-1", .. Officer]).ExitCode == 1);
        Good(Forget());
    }

    [Fact]
    public void Retention_RemovesWhatIsOverAndNotHeld()
    {
        Assert.Contains(
            "records for ever",
            Good(Run("retention", "show")).StandardOutput,
            StringComparison.Ordinal
        );
        Good(Run(["retention", "set", "--records", "1", "--assessments", "1", "--reports", "1", .. Officer]));
        Assert.Contains(
            "records 1 years, assessments 1 years, reports 1 years",
            Good(Run("retention", "show")).StandardOutput,
            StringComparison.Ordinal
        );

        // The job is of April 2026: nothing is over before 2027, whatever day it is until then.
        var run = Good(Run("retention", "run", "--dry-run"));
        Assert.Contains("records held", run.StandardOutput, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--from", "hold", "add", "--from", "yesterday")]
    [InlineData("--record", "hold", "add", "--record", "no identity")]
    [InlineData("--records", "retention", "set", "--records", "0")]
    [InlineData("--by", "hold", "add", "--record", "J")]
    [InlineData("one site", "hold", "add", "--record", "J", "--site", "SECOND")]
    [InlineData("one site", "ledger", "forget", "tech-02", "--site", "SECOND")]
    public void UnusableInput_IsRefusedAndTold(string told, params string[] arguments)
    {
        var who = told == "--by" ? ["--by", "tech-99", "--reason", "asked"] : Officer;
        AssertRefused(told, [.. arguments, .. who]);
    }

    [Fact]
    public void LedgerOfSeveralSites_WithoutASite_IsRefusedWithTheirNames()
    {
        Settle();
        foreach (var command in All)
        {
            AssertRefused($"`{First}`, `{Second}`", [.. command, .. Officer]);
        }
    }

    [Fact]
    public void LedgerOfSeveralSites_ASiteThatIsNoneOfThem_IsRefusedWithTheirNames()
    {
        Settle();
        var third = Site("Cedar Bank");
        foreach (var command in All)
        {
            AssertRefused($"`{First}`, `{Second}`", [.. command, .. Officer, "--site", third]);
        }
    }

    [Fact]
    public void LedgerOfSeveralSites_WhoAnswersStandsInTheRegisterOfTheSite()
    {
        Settle();
        string[] birch = ["--by", "birch-03", "--reason", "asked for it"];
        AssertRefused(
            "`birch-03` is not in the register",
            [.. All[0], .. birch, "--rules", Rules, "--site", Rules]
        );
        AssertRefused(
            "`tech-03` is not in the register",
            [.. All[0], "--by", "tech-03", "--reason", "x", "--site", Site(Second)]
        );

        Good(Run([.. All[0], .. birch, "--site", Site(Second)]));
        Good(Run([.. All[1], .. Officer, "--rules", Rules, "--site", Rules]));
        Good(Run([.. All[2], .. Officer, "--site", Path.Combine(Rules, "site-alder-reach")]));
        Good(Run([.. All[3], .. birch, "--site", Site(Second)]));
        Assert.Contains("by birch-03", Good(Run("hold", "list")).StandardOutput, StringComparison.Ordinal);
    }

    private static string Rules => ReferenceFiles.InRepository("rules");

    private static string[][] All =>
        [
            ["hold", "add", "--record", Job],
            ["hold", "lift", "H-1"],
            ["retention", "set", "--records", "7", "--assessments", "7", "--reports", "7"],
            ["ledger", "forget", "tech-02", "--with-contents"],
        ];

    private ProductOutcome Forget() => Run(["ledger", "forget", "tech-02", "--with-contents", .. Officer]);

    private ProductOutcome Run(params string[] arguments) =>
        _product.Run([
            .. arguments.Select(word => word == "SECOND" ? Site(Second) : word),
            "--ledger",
            Folder,
        ]);

    private static ProductOutcome Good(ProductOutcome outcome)
    {
        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        return outcome;
    }

    private void AssertRefused(string told, string[] arguments)
    {
        var outcome = Run(arguments);
        Manners.HoldForRefusal(outcome);
        Assert.Contains(told, outcome.StandardError, StringComparison.Ordinal);
    }

    /// <summary>Makes the ledger one of two sites, as a service does that is started with both.</summary>
    private void Settle()
    {
        using var folder = LedgerFolder.OpenOrCreate(Folder);
        var opened = Assert.IsType<LedgerOpening.Opened>(
            OpenLedger.Open(
                folder.Store,
                new CheckpointFolder(CheckpointFolder.Beside(Folder)),
                folder.Signer,
                TimeProvider.System
            )
        );
        SiteSettling.Settle(
            new LoggedAccounts(opened.Ledger, folder.Accounts),
            [First, Second],
            DateTimeOffset.UtcNow
        );
    }

    /// <summary>A folder of a further site: as the first one, of which one person is called otherwise.</summary>
    private string Site(string name)
    {
        var source = ReferenceFiles.InRepository("rules", "site-alder-reach");
        var target = _product.At("site-" + name.Replace(' ', '-'));
        foreach (var file in Directory.EnumerateFiles(source, "*", SearchOption.AllDirectories))
        {
            var copy = Path.Combine(target, Path.GetRelativePath(source, file));
            _ = Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.WriteAllText(
                copy,
                File.ReadAllText(file)
                    .Replace(First, name, StringComparison.Ordinal)
                    .Replace("tech-03", "birch-03", StringComparison.Ordinal)
            );
        }

        return target;
    }
}
