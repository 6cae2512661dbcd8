using System.Text;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>What is taken into a ledger, by whom, and what is told of the rest.</summary>
public sealed class LedgerAddTests : IDisposable
{
    private const string Job = "F-height-check";
    private const string FirstWaiver = "height-on-target.U-02-1.2026-04-01";
    private const string SecondWaiver = "height-on-target.U-02-2.2026-04-01";

    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    private string Folder => _product.At("ledger");

    private static string Order =>
        ReferenceFiles.InRepository("rules", "site-alder-reach", "setting-orders", "S-2026-season.json");

    private ProductOutcome Ledger(params string[] arguments) =>
        _product.Run(["ledger", .. arguments, "--ledger", Folder]);

    private ProductOutcome Good(ProductOutcome outcome)
    {
        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        return outcome;
    }

    /// <summary>Refused, told so, and no ledger begun for nothing.</summary>
    private void AssertUnusable(string told, params string[] arguments)
    {
        var outcome = Ledger(arguments);
        Manners.HoldForRefusal(outcome);
        Assert.Contains(told, outcome.StandardError, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Folder), $"a ledger was begun: {outcome}");
    }

    private string Write(string name, string text) => _product.Write(name, Encoding.UTF8.GetBytes(text));

    private string Changed() =>
        _product.Write("changed.json", Fixtures.Changed("height-check", ("\"3.80 mm\"", "\"4.40 mm\"")));

    private static string Waiver(string unit, string reason) =>
        $$"""
            { "rule": "height-on-target", "unit": "{{unit}}", "by": "lead-01", "reason": "{{reason}}",
              "from": "2026-04-01", "until": "2026-05-01" }
            """;

    private string Registers(params string[] waivers) =>
        Write(
            "registers.json",
            $$"""
            { "format": "registers/1", "people": [], "locks": [], "waivers": [{{string.Join(
                ',',
                waivers
            )}}], "instruments": [] }
            """
        );

    [Fact]
    public void Add_InTheNameOfSomebodyWhomNoRegisterHas_IsRefusedAndTheRegisterTold()
    {
        AssertUnusable("accepted: tech-01, ", "add", Fixtures.PathOf("height-check"), "--by", "tech-99");
        AssertUnusable("`tech-99` is not in the register", "add", "--kind", "rules", "--by", "tech-99");
        AssertUnusable(
            "`tech-99` is not in the register",
            "add",
            Order,
            "--kind",
            "setting-order",
            "--amends",
            "S-2026-season",
            "--by",
            "tech-99",
            "--reason",
            "later in the season"
        );

        Good(Ledger("add", Fixtures.PathOf("height-check"), "--by", "lead-01"));
        var forget = Ledger("forget", "lead-01", "--by", "tech-99", "--reason", "asked for it");
        Manners.HoldForRefusal(forget);
        Assert.Contains("`tech-99` is not in the register", forget.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void Add_PersonOrReasonThatWouldGoNowhere_IsRefused()
    {
        AssertUnusable("--by with --amends ID", "add", Order, "--kind", "setting-order", "--by", "lead-01");
        AssertUnusable("--reason says why", "add", Fixtures.PathOf("height-check"), "--reason", "new gauge");
    }

    [Fact]
    public void Add_EmptyReason_IsToldByItsName() =>
        AssertUnusable(
            "--reason: what is given with it is empty",
            "add",
            Changed(),
            "--amends",
            Job,
            "--by",
            "lead-01",
            "--reason",
            ""
        );

    [Fact]
    public void Add_AmendingAnotherIdentityThanTheFiles_TellsBoth() =>
        AssertUnusable(
            $"`J-9999` is to be corrected, and the file speaks of `{Job}`",
            "add",
            Changed(),
            "--amends",
            "J-9999",
            "--by",
            "lead-01",
            "--reason",
            "misread"
        );

    [Fact]
    public void Add_DocumentOfAnotherKind_IsToldTheKindItIs()
    {
        AssertUnusable("with --kind setting-order", "add", Order);
        AssertUnusable("with --kind record", "add", "--kind", "waiver", Fixtures.PathOf("height-check"));
        AssertUnusable("with --kind waiver", "add", Registers());
    }

    [Fact]
    public void Add_RegistersWithoutWaivers_FilesNothingAndSaysSo() =>
        AssertUnusable("holds no waiver", "add", "--kind", "waiver", Registers());

    [Fact]
    public void Add_RegistersWithSeveralWaivers_AmendsTheOneThatIsMeant()
    {
        var filed = Good(
            Ledger(
                "add",
                "--kind",
                "waiver",
                Registers(Waiver("U-02-1", "new bedknife"), Waiver("U-02-2", "new reel"))
            )
        );
        Assert.Contains($"{FirstWaiver}: waiver is entry 0", filed.StandardOutput, StringComparison.Ordinal);
        Assert.Contains($"{SecondWaiver}: waiver is entry 1", filed.StandardOutput, StringComparison.Ordinal);
        string[] amend = ["--by", "lead-01", "--reason", "the reel was not new"];

        var amended = Good(
            Ledger([
                "add",
                "--kind",
                "waiver",
                Registers(Waiver("U-02-1", "new bedknife"), Waiver("U-02-2", "reel of last year")),
                "--amends",
                SecondWaiver,
                .. amend,
            ])
        );
        var none = Ledger([
            "add",
            "--kind",
            "waiver",
            Registers(Waiver("U-02-1", "new bedknife")),
            "--amends",
            SecondWaiver,
            .. amend,
        ]);

        Assert.Equal(
            $"{SecondWaiver}: waiver is entry 2; log size 3\n",
            amended.StandardOutput.ReplaceLineEndings("\n")
        );
        Manners.HoldForRefusal(none);
    }

    [Fact]
    public void Add_AmendmentSentAgain_StandsAndWithAnotherReasonIsRefused()
    {
        Good(Ledger("add", Fixtures.PathOf("height-check")));
        string[] amend = ["add", Changed(), "--amends", Job, "--by", "lead-01", "--reason"];
        Good(Ledger([.. amend, "misread the gauge"]));

        var again = Good(Ledger([.. amend, "misread the gauge"]));
        var other = Ledger([.. amend, "the gauge was bent"]);

        Assert.Contains("stands already as entry 3", again.StandardOutput, StringComparison.Ordinal);
        Assert.Equal(1, other.ExitCode);
        Assert.Contains(
            "stands as entry 3 with this very content, because `misread the gauge`",
            other.StandardError,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Show_ReasonOverSeveralLines_KeepsThemUnderTheFirst()
    {
        Good(Ledger("add", Fixtures.PathOf("height-check")));
        string[] amend = ["--amends", Job, "--by", "lead-01", "--reason", "misread\nentry 9  by lead-02"];
        Good(Ledger(["add", Changed(), .. amend]));

        var told = Good(Ledger("show", Job)).StandardOutput.ReplaceLineEndings("\n");

        Assert.Contains(
            "\n  because: misread\n           entry 9  by lead-02\n",
            told,
            StringComparison.Ordinal
        );
    }

    [SkippableFact]
    public void Report_OfAnAmendedRecord_SaysOnPageOneWhatItAmendsAndWhy()
    {
        var pdftotext = Tool.Require("pdftotext");
        Good(Ledger("add", Fixtures.PathOf("height-check")));
        Good(Ledger("add", Changed(), "--amends", Job, "--by", "lead-01", "--reason", "misread the gauge"));
        var pdf = _product.At("amended.pdf");

        Good(_product.Run("report", Changed(), "-o", pdf, "--ledger", Folder));

        var page = pdftotext.Run("-l", "1", "-layout", pdf, "-").StandardOutput;
        Assert.Matches(@"amends\s+entry 1 of the log \(misread the gauge\)", page);
        Assert.Contains(
            "amends entry 1",
            Good(_product.Run("verify", pdf)).StandardOutput,
            StringComparison.Ordinal
        );
    }
}
