using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Evidence.Log;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

public sealed class LedgerCommandTests : IDisposable
{
    private const string Job = "F-height-check";

    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    private ProductOutcome Ledger(params string[] arguments) =>
        _product.Run(["ledger", .. arguments, "--ledger", _product.At("ledger")]);

    private ProductOutcome Good(ProductOutcome outcome)
    {
        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        return outcome;
    }

    private string Changed(string name = "changed.json") =>
        _product.Write(name, Fixtures.Changed("height-check", ("\"3.80 mm\"", "\"4.40 mm\"")));

    [Fact]
    public void Add_ARecord_FilesItAndKeepsTheCheckpointOutside()
    {
        var outcome = Good(Ledger("add", Fixtures.PathOf("height-check")));

        Assert.Contains(
            $"{Job}: rules in force is entry 0, record is entry 1, assessment is entry 2; log size 3",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
        Assert.Contains("A ledger was begun", outcome.StandardError, StringComparison.Ordinal);
        Assert.True(File.Exists(_product.At("ledger-checkpoints/checkpoints.txt")));
        Assert.Contains("SOUND", Good(Ledger("verify")).StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void CheckpointAndProve_PlaceOfSomethingElse_IsLeftAloneAndOneOfALogWrittenOver()
    {
        Good(Ledger("add", Fixtures.PathOf("height-check")));
        var (record, place) = (Changed("record.json"), _product.At("checkpoint"));
        var before = File.ReadAllBytes(record);

        Assert.Equal(2, Ledger("checkpoint", "-o", record).ExitCode);
        Assert.Equal(2, Ledger("prove", "1", "-o", record).ExitCode);
        Assert.Equal(2, Ledger("prove", "1", "--entry-out", record).ExitCode);
        Assert.Equal(before, File.ReadAllBytes(record));

        Good(Ledger("checkpoint", "-o", place));
        Good(Ledger("prove", "1", "-o", place));
        Good(Ledger("prove", "1", "--entry-out", place));
        Good(Ledger("checkpoint", "-o", place));
    }

    [Fact]
    public void Add_OtherContentUnderTheIdentity_IsRefusedUntilItIsAnAmendment()
    {
        Good(Ledger("add", Fixtures.PathOf("height-check")));

        var refused = Ledger("add", Changed());
        Manners.Hold(refused);
        Assert.Equal(1, refused.ExitCode);
        Assert.Contains(
            "stands as entry 1 with other content",
            refused.StandardError,
            StringComparison.Ordinal
        );
        Assert.Equal(2, Ledger("add", Changed(), "--amends", Job, "--by", "lead-01").ExitCode);

        Good(Ledger("add", Changed(), "--amends", Job, "--by", "lead-01", "--reason", "misread the gauge"));

        var told = Good(Ledger("show", Job)).StandardOutput;
        Assert.Contains("2 versions", told, StringComparison.Ordinal);
        Assert.Contains("corrects entry 1", told, StringComparison.Ordinal);
        Assert.Contains("because: misread the gauge", told, StringComparison.Ordinal);
        Assert.Contains("by lead-01 (p-", told, StringComparison.Ordinal);
        Assert.Contains("\"3.80 mm\" -> \"4.40 mm\"", told, StringComparison.Ordinal);
        Assert.Contains("job, disposition: release -> hold", told, StringComparison.Ordinal);
    }

    [Fact]
    public void Show_RecordUnderTheIdentityOfWhatTheLogKeepsOfItsOwn_TellsThemApart()
    {
        var record = _product.Write(
            "named.record.json",
            System.Text.Encoding.UTF8.GetBytes(
                File.ReadAllText(Fixtures.PathOf("height-check"))
                    .Replace(Job, "rules-in-force", StringComparison.Ordinal)
            )
        );
        Good(Ledger("add", record));

        var told = Good(Ledger("show", "rules-in-force")).StandardOutput;

        Assert.Contains("rules-in-force (record): 1 version", told, StringComparison.Ordinal);
        Assert.Contains("rules-in-force (rules in force): 1 version", told, StringComparison.Ordinal);
    }

    [Fact]
    public void Add_SiteDocuments_EachStandsUnderItsOwnIdentity()
    {
        var order = ReferenceFiles.InRepository(
            "rules",
            "site-alder-reach",
            "setting-orders",
            "S-2026-season.json"
        );
        var waiver = _product.Write(
            "waiver.json",
            """
            { "format": "waiver/1", "rule": "height-on-target", "unit": "U-02-1", "by": "lead-01",
              "reason": "new bedknife", "from": "2026-04-01", "until": "2026-05-01" }
            """u8.ToArray()
        );

        Good(Ledger("add", "--kind", "setting-order", order));
        Good(Ledger("add", "--kind", "rules", "--by", "lead-01", "--reason", "new season"));
        var waivers = Good(Ledger("add", "--kind", "waiver", waiver)).StandardOutput;

        Assert.Contains(
            "by lead-01",
            Good(Ledger("show", "S-2026-season")).StandardOutput,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "because: new season",
            Good(Ledger("show", "rules-in-force")).StandardOutput,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "height-on-target.U-02-1.2026-04-01: waiver is entry 2",
            waivers,
            StringComparison.Ordinal
        );
        Good(Ledger("verify"));
    }

    [Fact]
    public void Report_WithALedger_CarriesTheProofsAndGetsItsOwnBeside()
    {
        var pdf = _product.At("out.pdf");
        Good(
            _product.Run(
                "report",
                Fixtures.PathOf("height-check"),
                "-o",
                pdf,
                "--ledger",
                _product.At("ledger")
            )
        );

        Assert.True(
            TlogProof.TryParse(File.ReadAllBytes(pdf + ".proof"), out var proof, out var faults),
            string.Join(';', faults)
        );
        var entry = _product.At("entry.json");
        Good(Ledger("prove", "3", "--entry-out", entry, "-o", _product.At("again.proof")));
        Assert.True(proof.Proves(MerkleTree.LeafHash(File.ReadAllBytes(entry))));
        var said = JsonNode.Parse(File.ReadAllText(entry))!;
        Assert.Equal("report", said["kind"]!.GetValue<string>());
        Assert.Equal(
            "sha256:"
                + Convert.ToHexStringLower(
                    System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(pdf))
                ),
            said["content"]!.GetValue<string>()
        );
        Assert.Contains(
            "report       entry 3",
            Good(Ledger("show", Job)).StandardOutput,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Report_OfAnAmendedVersion_IsRefusedUnlessAskedFor()
    {
        Good(Ledger("add", Fixtures.PathOf("height-check")));
        Good(Ledger("add", Changed(), "--amends", Job, "--by", "lead-01", "--reason", "misread the gauge"));
        var pdf = _product.At("old.pdf");
        string[] report =
        [
            "report",
            Fixtures.PathOf("height-check"),
            "-o",
            pdf,
            "--ledger",
            _product.At("ledger"),
        ];

        var refused = _product.Run(report);
        Assert.Equal(1, refused.ExitCode);
        Assert.Contains("entry 3 came after it", refused.StandardError, StringComparison.Ordinal);
        Assert.False(File.Exists(pdf));

        Good(_product.Run([.. report, "--superseded"]));
        Assert.True(File.Exists(pdf));
    }

    [Fact]
    public void Report_WhereItsProofOrItselfCannotBeWritten_FilesNothing()
    {
        var pdf = _product.At("out.pdf");
        string[] report =
        [
            "report",
            Fixtures.PathOf("height-check"),
            "-o",
            pdf,
            "--ledger",
            _product.At("ledger"),
        ];
        File.WriteAllText(pdf + ".proof", "not a proof");

        Manners.HoldForRefusal(_product.Run(report));
        Assert.Equal("not a proof", File.ReadAllText(pdf + ".proof"));
        File.Delete(pdf + ".proof");

        Directory.CreateDirectory(pdf);
        Manners.HoldForRefusal(_product.Run(report));
        Directory.Delete(pdf);

        Assert.False(Directory.Exists(_product.At("ledger")));

        Good(_product.Run(report));
        // An earlier proof is written over, as an earlier report is.
        Good(_product.Run(report));
    }

    [Fact]
    public void Show_WithTheCheckpointsMissing_IsRefusedUnlessSomebodyAnswersForIt()
    {
        Good(Ledger("add", Fixtures.PathOf("height-check")));
        Good(Ledger("add", Fixtures.PathOf("touch-up")));
        Directory.Delete(_product.At("ledger-checkpoints"), recursive: true);

        var refused = Ledger("show", Job);
        Manners.HoldForRefusal(refused);
        Assert.Contains("--accept-missing-checkpoints", refused.StandardError, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_product.At("ledger-checkpoints")));

        Good(Ledger("show", Job, "--accept-missing-checkpoints"));
        Good(Ledger("show", Job));
    }

    [Fact]
    public void Report_OfAConflictingRecord_IsNeitherFiledNorWritten()
    {
        Good(Ledger("add", Fixtures.PathOf("height-check")));
        var pdf = _product.At("out.pdf");

        var outcome = _product.Run("report", Changed(), "-o", pdf, "--ledger", _product.At("ledger"));

        Assert.Equal(1, outcome.ExitCode);
        Assert.False(File.Exists(pdf));
    }

    [SkippableFact]
    public void Verify_OlderDatabasePutBack_IsRefusedEverywhereAndNamed()
    {
        Skip.If(OperatingSystem.IsWindows(), "copies the files of a folder that is private in the Unix way");
        Good(Ledger("add", Fixtures.PathOf("height-check")));
        var database = _product.At("ledger/ledger.db");
        File.Copy(database, _product.At("older.db"));
        Good(Ledger("add", Fixtures.PathOf("touch-up")));
        File.Copy(_product.At("older.db"), database, overwrite: true);

        var add = Ledger("add", Fixtures.PathOf("lap"));
        Manners.HoldForRefusal(add);
        Assert.Contains(
            "it says size 5, here it is 3: entries 3 to 4 are missing",
            add.StandardError,
            StringComparison.Ordinal
        );
        Manners.HoldForRefusal(
            _product.Run(
                "report",
                Fixtures.PathOf("lap"),
                "-o",
                _product.At("l.pdf"),
                "--ledger",
                _product.At("ledger")
            )
        );
        var verify = Ledger("verify");
        Assert.Equal(1, verify.ExitCode);
        Assert.Contains("FAULT  shorter-history", verify.StandardOutput, StringComparison.Ordinal);
        var json = JsonNode.Parse(Ledger("verify", "--format", "json").StandardOutput)!;
        Assert.False(json["sound"]!.GetValue<bool>());
        Assert.Equal("shorter-history", json["faults"]![0]!["code"]!.GetValue<string>());
    }

    [Fact]
    public void Checkpoint_WithGrowth_IsWhatAWitnessCosigns()
    {
        Good(Ledger("add", Fixtures.PathOf("height-check")));
        var (checkpoint, growth, key) = (_product.At("c"), _product.At("g"), _product.At("key.pem"));
        Good(Ledger("checkpoint", "-o", checkpoint));
        File.WriteAllText(key, Good(Ledger("key")).StandardOutput);
        string[] witness = ["witness", "add", checkpoint, "--store", _product.At("witness")];
        Good(_product.Run([.. witness, "--log-key", key, "--name", "witness.example/w1"]));
        Good(Ledger("add", Fixtures.PathOf("touch-up")));
        Good(Ledger("checkpoint", "-o", checkpoint));
        Good(Ledger("checkpoint", "--growth-from", "3", "-o", growth));

        Good(
            _product.Run([
                .. witness,
                "--proof",
                growth,
                "--out",
                _product.At("ledger-checkpoints/cosigned.txt"),
            ])
        );

        // The cosigned note lies among the checkpoints outside now, and speaks for the log as they do.
        Good(Ledger("verify"));
    }

    [Fact]
    public void Forget_APerson_LeavesTheLogSoundAndTheNameGone()
    {
        Good(Ledger("add", Fixtures.PathOf("height-check")));

        var outcome = Good(
            Ledger(
                "forget",
                "tech-02",
                "--by",
                "officer-01",
                "--reason",
                "left, and asked",
                "--with-contents"
            )
        );

        Assert.Contains("erasure is entry 3", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("(forgotten)", Good(Ledger("show", Job)).StandardOutput, StringComparison.Ordinal);
        Assert.Contains("3 erased", Good(Ledger("verify")).StandardOutput, StringComparison.Ordinal);
        Assert.DoesNotContain(
            "tech-02",
            Encoding.Latin1.GetString(File.ReadAllBytes(_product.At("ledger/ledger.db"))),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Export_ThenVerify_NeedsNoDatabaseAndSeesEveryChange()
    {
        Good(Ledger("add", Fixtures.PathOf("height-check"), Fixtures.PathOf("touch-up")));
        var folder = _product.At("export");
        Good(Ledger("export", folder));
        string[] verify =
        [
            "ledger",
            "verify",
            "--export",
            folder,
            "--checkpoints",
            _product.At("ledger-checkpoints"),
        ];
        Good(_product.Run(verify));

        foreach (var file in Directory.GetFiles(folder, "*", SearchOption.AllDirectories))
        {
            var sound = File.ReadAllBytes(file);
            var spoilt = (byte[])sound.Clone();
            spoilt[sound.Length / 2] ^= 1;
            File.WriteAllBytes(file, spoilt);
            var outcome = _product.Run(verify);
            Assert.True(outcome.ExitCode is 1 or 2, $"{file}: {outcome}");
            Assert.True(Manners.IsFreeOfStackTraces(outcome), outcome.ToString());
            File.WriteAllBytes(file, sound);
        }

        Good(_product.Run(verify));
    }

    [Theory]
    [InlineData("ledger", "verify")]
    [InlineData("ledger", "verify", "--ledger", "nothing-here")]
    [InlineData("ledger", "verify", "--export", "nothing-here")]
    [InlineData("ledger", "add", "--ledger", "x")]
    [InlineData(
        "ledger",
        "add",
        "a.json",
        "b.json",
        "--amends",
        "J",
        "--by",
        "p",
        "--reason",
        "r",
        "--ledger",
        "x"
    )]
    [InlineData("ledger", "add", "--kind", "rules", "--ledger", "x")]
    [InlineData("ledger", "add", "a.json", "--by", "no body", "--ledger", "x")]
    [InlineData("ledger", "show", "J", "--ledger", "nothing-here")]
    [InlineData("ledger", "prove", "0", "--ledger", "nothing-here")]
    [InlineData("ledger", "forget", "tech-01", "--ledger", "nothing-here")]
    [InlineData("ledger", "add", "a.json", "--ledger", "x", "--checkpoints", "x/inside")]
    public void Ledger_UnusableInput_EndsWithTwoAndSaysWhy(params string[] arguments) =>
        Manners.HoldForRefusal(_product.Run(arguments));
}
