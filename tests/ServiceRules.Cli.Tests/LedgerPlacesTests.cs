using System.Runtime.Versioning;
using System.Text;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>Where a ledger, its checkpoints and what it gives out may be.</summary>
public sealed class LedgerPlacesTests : IDisposable
{
    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    private static string Record => Fixtures.PathOf("height-check");

    private string Folder => _product.At("ledger");

    private ProductOutcome Ledger(params string[] arguments) =>
        _product.Run(["ledger", .. arguments, "--ledger", Folder]);

    private static ProductOutcome Good(ProductOutcome outcome)
    {
        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        return outcome;
    }

    private static void AssertUnusable(string told, ProductOutcome outcome)
    {
        Manners.HoldForRefusal(outcome);
        Assert.Contains(told, outcome.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void Add_LedgerOrCheckpointsThatAreAFile_AreRefused()
    {
        var file = _product.Write("file", "something else"u8.ToArray());

        AssertUnusable("--ledger: ", _product.Run("ledger", "add", Record, "--ledger", file));
        AssertUnusable("--checkpoints: ", Ledger("add", Record, "--checkpoints", file));
        Assert.Equal("something else", File.ReadAllText(file));
        Assert.False(Directory.Exists(Folder));
    }

    [SkippableFact]
    public void Add_LedgerThatIsALinkToNothing_IsRefused()
    {
        Skip.If(OperatingSystem.IsWindows(), "links need a privilege there");
        File.CreateSymbolicLink(Folder, _product.At("gone"));

        AssertUnusable("a link to nothing", Ledger("add", Record));
        Assert.False(Directory.Exists(_product.At("gone")));
    }

    [SkippableFact]
    public void Add_CheckpointsThatALinkLeadsIntoTheLedger_AreRefused()
    {
        Skip.If(OperatingSystem.IsWindows(), "links need a privilege there");
        Good(Ledger("add", Record));
        Directory.CreateDirectory(_product.At("other"));
        File.CreateSymbolicLink(_product.At("other/way"), "../ledger");

        AssertUnusable(
            "lies in the ledger's own folder",
            Ledger("add", Record, "--checkpoints", _product.At("other/way"))
        );
        AssertUnusable(
            "lies in the ledger's own folder",
            Ledger("add", Record, "--checkpoints", _product.At("other/way/below"))
        );
        AssertUnusable(
            "lies in the ledger's own folder",
            _product.Run("ledger", "verify", "--ledger", _product.At("other/way"), "--checkpoints", Folder)
        );
    }

    [Fact]
    public void Add_NewLedgerOverTheCheckpointsOfAnother_IsRefusedInOneLineAndLeavesNoFolder()
    {
        foreach (var job in (string[])["height-check", "touch-up", "lap"])
        {
            Good(Ledger("add", Fixtures.PathOf(job)));
        }

        var other = _product.Run(
            "ledger",
            "add",
            Record,
            "--ledger",
            _product.At("new"),
            "--checkpoints",
            _product.At("ledger-checkpoints")
        );

        AssertUnusable("keeps checkpoints of one (3, the first says `servicerules-ledger-", other);
        Assert.Single(other.Complaints);
        Assert.False(Directory.Exists(_product.At("new")));
    }

    [Fact]
    public void Outputs_IntoAFolderThatIsNotThere_AreRefusedAndMakeNone()
    {
        Good(Ledger("add", Record));
        var (checkpoint, key) = (_product.At("checkpoint"), _product.At("key"));
        Good(Ledger("checkpoint", "-o", checkpoint));
        File.WriteAllText(key, Good(Ledger("key")).StandardOutput);
        Good(_product.Run("report", Record, "-o", _product.At("job.pdf")));
        var nowhere = _product.At("no/such");

        ProductOutcome[] refused =
        [
            Ledger("checkpoint", "-o", nowhere),
            Ledger("prove", "0", "-o", nowhere),
            Ledger("prove", "0", "--entry-out", nowhere),
            _product.Run("keys", "rotate", "--certificate-out", nowhere),
            _product.Run(
                "witness",
                "add",
                checkpoint,
                "--log-key",
                key,
                "--store",
                _product.At("store"),
                "--out",
                nowhere
            ),
        ];

        Assert.All(refused, outcome => AssertUnusable("there is no folder", outcome));
        Assert.False(Directory.Exists(_product.At("no")));
        Assert.False(Directory.Exists(_product.At("store")));
        Assert.DoesNotContain(
            "retired",
            Good(_product.Run("keys", "list")).StandardOutput,
            StringComparison.Ordinal
        );
    }

    [SkippableFact]
    [UnsupportedOSPlatform("windows")]
    public void Export_IsForItsOwnerAlone()
    {
        Skip.If(OperatingSystem.IsWindows(), "Windows keeps permissions elsewhere");
        Good(Ledger("add", Record));
        var export = _product.At("export");

        Good(Ledger("export", export));

        const UnixFileMode ofOthers =
            UnixFileMode.GroupRead
            | UnixFileMode.GroupWrite
            | UnixFileMode.GroupExecute
            | UnixFileMode.OtherRead
            | UnixFileMode.OtherWrite
            | UnixFileMode.OtherExecute;
        Assert.All(
            [export, .. Directory.GetFileSystemEntries(export, "*", SearchOption.AllDirectories)],
            path => Assert.Equal(UnixFileMode.None, File.GetUnixFileMode(path) & ofOthers)
        );
    }

    /// <summary>Nobody ever writes into these pipes: whoever opens one waits for ever.</summary>
    [SkippableFact]
    public void Verify_ExportWithAPipeInPlaceOfAFile_EndsAtOnce()
    {
        var mkfifo = Tool.Require("mkfifo");
        Good(Ledger("add", Record));
        var export = _product.At("export");
        Good(Ledger("export", export));
        foreach (var name in (string[])["entries.jsonl", "checkpoint.txt", "checkpoints.txt", "log-key.txt"])
        {
            var path = Path.Combine(export, name);
            File.Move(path, path + ".kept");
            Assert.Equal(0, mkfifo.Run(path).ExitCode);

            AssertUnusable("no regular file", _product.Run("ledger", "verify", "--export", export));

            File.Delete(path);
            File.Move(path + ".kept", path);
        }

        Good(_product.Run("ledger", "verify", "--export", export));
    }

    [Fact]
    public void Verify_WithAWitnesssKey_TellsHowFarItCosignedAndMissesItWhereItDidNot()
    {
        Good(Ledger("add", Record));
        var (checkpoint, key, store) = (_product.At("c"), _product.At("key"), _product.At("store"));
        Good(Ledger("checkpoint", "-o", checkpoint));
        File.WriteAllText(key, Good(Ledger("key", "--note")).StandardOutput);
        var cosigned = _product.At("ledger-checkpoints/cosigned.txt");
        string[] witness = ["witness", "add", checkpoint, "--store", store, "--log-key", key];
        Good(_product.Run([.. witness, "--name", "witness.example/w1", "--out", _product.At("aside")]));
        string[] verify = ["verify", "--witness-key", Path.Combine(store, "witness.vkey")];

        var without = Ledger(verify);
        File.Copy(_product.At("aside"), cosigned);
        var with = Good(Ledger(verify));
        var note = File.ReadAllText(cosigned);
        File.WriteAllText(cosigned, Spoilt(note));
        var spoilt = Ledger(verify);

        Assert.Equal((1, 1), (without.ExitCode, spoilt.ExitCode));
        Assert.Contains("FAULT  cosignature-missing: ", without.StandardOutput, StringComparison.Ordinal);
        Assert.Contains(
            "cosigned     size 3 by witness.example/w1, key ",
            with.StandardOutput,
            StringComparison.Ordinal
        );
        Assert.Contains("FAULT  cosignature: ", spoilt.StandardOutput, StringComparison.Ordinal);
        AssertUnusable("no key of a witness", Ledger("verify", "--witness-key", checkpoint));
        // Without the key nobody can tell.
        Good(Ledger("verify"));
    }

    /// <summary>One of the last digits of the cosignature becomes another.</summary>
    private static string Spoilt(string note)
    {
        var at = note.TrimEnd().Length - 8;
        return new StringBuilder(note) { [at] = note[at] == 'A' ? 'B' : 'A' }.ToString();
    }
}
