using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

public sealed class SafeWorkCommandTests : IDisposable
{
    private const string ByTwo = "height-check-by-two";

    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    /// <summary>A record under another identity, into a folder of records.</summary>
    private string Record(string id, params (string From, string To)[] changes) =>
        _product.Write(
            $"records/{id}.json",
            Fixtures.Changed(ByTwo, [($"\"F-{ByTwo}\"", $"\"{id}\""), .. changes])
        );

    [Fact]
    public void SafeWork_OneRecord_IsWrittenAndGenuine()
    {
        var (pdf, certificate) = (_product.At("job.pdf"), _product.At("signer.pem"));

        var written = _product.Run(
            "safe-work",
            Fixtures.PathOf(ByTwo),
            "-o",
            pdf,
            "--certificate-out",
            certificate
        );
        var verified = _product.Run("verify", pdf, "--trust", certificate);

        Manners.Hold(written);
        Assert.True(written.ExitCode == 0, written.ToString());
        Assert.Contains(
            "signed safe-work report of F-height-check-by-two",
            written.StandardOutput,
            StringComparison.Ordinal
        );
        Assert.True(verified.ExitCode == 0, verified.ToString());
        Assert.Contains("GENUINE", verified.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void SafeWork_FolderAndPeriod_TakesTheRecordsOfThoseDaysAndIsGenuine()
    {
        var (pdf, certificate) = (_product.At("april.pdf"), _product.At("signer.pem"));
        _ = Record("J-1");
        _ = Record("J-2", ("2026-04-13", "2026-04-14"));
        _ = Record("J-3", ("2026-04-13", "2026-05-14"));

        var written = _product.Run(
            "safe-work",
            _product.At("records"),
            "-o",
            pdf,
            "--from",
            "2026-04-01",
            "--until",
            "2026-04-30",
            "--certificate-out",
            certificate
        );
        var verified = _product.Run("verify", pdf, "--trust", certificate);

        Manners.Hold(written);
        Assert.True(written.ExitCode == 0, written.ToString());
        Assert.Contains(
            "of 2 jobs, 2026-04-01 to 2026-04-30",
            written.StandardOutput,
            StringComparison.Ordinal
        );
        Assert.True(verified.ExitCode == 0, verified.ToString());
        Assert.Contains(
            "judging the 2 attached jobs again gives the same summary",
            verified.StandardOutput,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void SafeWork_PeriodChangedByOneByte_IsNotGenuine()
    {
        var (pdf, certificate) = (_product.At("april.pdf"), _product.At("signer.pem"));
        _ = Record("J-1");
        _ = Record("J-2", ("2026-04-13", "2026-04-14"));
        Assert.Equal(
            0,
            _product
                .Run("safe-work", _product.At("records"), "-o", pdf, "--certificate-out", certificate)
                .ExitCode
        );
        var bytes = File.ReadAllBytes(pdf);
        var at = bytes.AsSpan().IndexOf("\"work_started\""u8);
        bytes[at + 1] = (byte)'W';
        File.WriteAllBytes(pdf, bytes);

        var verified = _product.Run("verify", pdf, "--trust", certificate);

        Assert.True(verified.ExitCode == 1, verified.ToString());
        Assert.Contains("NOT GENUINE", verified.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void SafeWork_BadRecordAlone_IsRefusedWithTheCheckersWords()
    {
        var bad = _product.Write("bad.json", "{}"u8.ToArray());

        var outcome = _product.Run("safe-work", bad, "-o", _product.At("bad.pdf"));

        Manners.HoldForRefusal(outcome);
        Assert.Contains("`format` is missing", outcome.StandardError, StringComparison.Ordinal);
        Assert.False(File.Exists(_product.At("bad.pdf")));
    }

    [Fact]
    public void SafeWork_BadRecordAmongGood_IsToldAndLeftOut()
    {
        var pdf = _product.At("all.pdf");
        _ = Record("J-1");
        _ = _product.Write("records/bad.json", "{}"u8.ToArray());

        var outcome = _product.Run("safe-work", _product.At("records"), "-o", pdf);

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains("bad.json", outcome.StandardError, StringComparison.Ordinal);
        Assert.Contains("of 1 job", outcome.StandardOutput, StringComparison.Ordinal);
    }

    /// <summary>A record whose date and times part may be of the period: that it is left out is told by name.</summary>
    [Fact]
    public void SafeWork_RecordDatedOutsideItsOwnTimes_IsToldByName()
    {
        _ = Record("J-1");
        _ = Record("J-2", ("\"date\": \"2026-04-13\"", "\"date\": \"2026-05-14\""));

        var outcome = _product.Run(
            "safe-work",
            _product.At("records"),
            "-o",
            _product.At("april.pdf"),
            "--from",
            "2026-04-01",
            "--until",
            "2026-04-30"
        );

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains("J-2.json", outcome.StandardError, StringComparison.Ordinal);
        Assert.Contains(
            "`J-2` is dated 2026-05-14, outside the period, and its times are of 2026-04-13",
            outcome.StandardError,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void SafeWork_NoRecordOfThePeriod_IsRefused()
    {
        _ = Record("J-1");

        var outcome = _product.Run(
            "safe-work",
            _product.At("records"),
            "-o",
            _product.At("none.pdf"),
            "--from",
            "2027-01-01"
        );

        Manners.HoldForRefusal(outcome);
        Assert.Contains("no readable record of the period", outcome.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void SafeWork_PeriodTurnedRound_IsRefused()
    {
        var outcome = _product.Run(
            "safe-work",
            Fixtures.PathOf(ByTwo),
            "-o",
            _product.At("none.pdf"),
            "--from",
            "2026-05-01",
            "--until",
            "2026-04-01"
        );

        Manners.HoldForRefusal(outcome);
        Assert.Contains("before --from", outcome.StandardError, StringComparison.Ordinal);
    }

    private string FiledPeriod(out string certificate)
    {
        var pdf = _product.At("april.pdf");
        certificate = _product.At("signer.pem");
        _ = Record("J-1");
        _ = Record("J-2", ("2026-04-13", "2026-04-14"));
        var written = _product.Run(
            "safe-work",
            _product.At("records"),
            "-o",
            pdf,
            "--ledger",
            _product.At("ledger"),
            "--certificate-out",
            certificate
        );
        Manners.Hold(written);
        Assert.True(written.ExitCode == 0, written.ToString());
        Assert.Contains("report is entry 0", written.StandardOutput, StringComparison.Ordinal);
        return pdf;
    }

    [Fact]
    public void SafeWork_PeriodIntoALedger_IsFiledAndVerifiedByItsProofAndTheLogsKey()
    {
        var pdf = FiledPeriod(out var certificate);
        var key = _product.At("log-key.pem");
        File.WriteAllText(
            key,
            _product.Run("ledger", "key", "--ledger", _product.At("ledger")).StandardOutput
        );
        string[] asked = ["verify", pdf, "--trust", certificate, "--require", "log"];

        var proven = _product.Run([.. asked, "--proof", pdf + ".proof", "--log-key", key]);
        var withoutKey = _product.Run([.. asked, "--proof", pdf + ".proof"]);
        var withoutProof = _product.Run(asked);
        var ledger = _product.Run("ledger", "verify", "--ledger", _product.At("ledger"));

        Assert.True(proven.ExitCode == 0, proven.ToString());
        Assert.Contains("this file is entry 0", proven.StandardOutput, StringComparison.Ordinal);
        Assert.NotEqual(0, withoutKey.ExitCode);
        Assert.NotEqual(0, withoutProof.ExitCode);
        Assert.True(ledger.ExitCode == 0, ledger.ToString());
    }

    [Fact]
    public void SafeWork_ProofOfAnotherPeriod_EstablishesNothing()
    {
        var pdf = FiledPeriod(out var certificate);
        var key = _product.At("log-key.pem");
        File.WriteAllText(
            key,
            _product.Run("ledger", "key", "--ledger", _product.At("ledger")).StandardOutput
        );
        var other = _product.At("other.pdf");
        Assert.Equal(
            0,
            _product
                .Run(
                    "safe-work",
                    _product.At("records"),
                    "-o",
                    other,
                    "--until",
                    "2026-04-13",
                    "--ledger",
                    _product.At("ledger")
                )
                .ExitCode
        );

        var verified = _product.Run(
            "verify",
            pdf,
            "--trust",
            certificate,
            "--proof",
            other + ".proof",
            "--log-key",
            key
        );

        Assert.NotEqual(0, verified.ExitCode);
        Assert.Contains("settles nothing about this file", verified.StandardOutput, StringComparison.Ordinal);
    }

    /// <summary>The report is compressed; its jobs, kept beside it, say whom it names.</summary>
    [Fact]
    public void SafeWork_FiledPeriodThatNamesOneWhoIsForgotten_GoesWithTheContents()
    {
        _ = FiledPeriod(out _);
        string[] place = ["--ledger", _product.At("ledger")];

        var forgotten = _product.Run([
            "ledger",
            "forget",
            "tech-05",
            "--with-contents",
            "--by",
            "officer-01",
            "--reason",
            "left the site",
            .. place,
        ]);
        var verified = _product.Run(["ledger", "verify", .. place]);

        Assert.True(forgotten.ExitCode == 0, forgotten.ToString());
        Assert.True(verified.ExitCode == 0, verified.ToString());
        // The jobs and the report that tells them.
        Assert.Contains("2", verified.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("erased", verified.StandardOutput, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void SafeWork_OneRecordIntoALedger_IsFiledAndVerifiedWithIt()
    {
        var (pdf, certificate) = (_product.At("job.pdf"), _product.At("signer.pem"));

        var written = _product.Run(
            "safe-work",
            Fixtures.PathOf(ByTwo),
            "-o",
            pdf,
            "--ledger",
            _product.At("ledger"),
            "--certificate-out",
            certificate
        );
        var verified = _product.Run(
            "verify",
            pdf,
            "--trust",
            certificate,
            "--require",
            "log",
            "--proof",
            pdf + ".proof"
        );

        Assert.True(written.ExitCode == 0, written.ToString());
        Assert.True(verified.ExitCode == 0, verified.ToString());
    }
}
