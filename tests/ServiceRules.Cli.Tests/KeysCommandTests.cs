using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>The life of a key: used, followed, revoked.</summary>
public sealed partial class KeysCommandTests : IDisposable
{
    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    private static string Now =>
        TimeProvider.System.GetUtcNow().ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);

    private ProductOutcome Good(params string[] arguments)
    {
        var outcome = _product.Run(arguments);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        return outcome;
    }

    private string Report(string name)
    {
        var pdf = _product.At(name);
        _ = Good("report", Fixtures.PathOf("height-check"), "-o", pdf);
        return pdf;
    }

    private string RetiredFingerprint() =>
        Retired().Match(Good("keys", "list").StandardOutput).Groups["digits"].Value;

    [Fact]
    public void Keys_FromTheFirstReportToRevocation_TellWhatBecomesOfOldReports()
    {
        var none = Good("keys", "list");
        var old = Report("old.pdf");
        var certificate = _product.At("next.pem");

        var rotated = Good("keys", "rotate", "--certificate-out", certificate);
        var next = Report("next.pdf");
        _ = Good("verify", old);
        _ = Good("verify", next);
        var list = _product.At("list.pem");
        // Lists tell whole seconds: the reports were signed in an earlier one.
        Thread.Sleep(TimeSpan.FromSeconds(1));
        var superseded = Good([
            "keys",
            "revoke",
            .. RetiredFingerprint().Split(' '),
            "--reason",
            "superseded",
            "--from",
            Now,
            "--out",
            list,
        ]);
        var stillGood = Good("verify", old);
        var compromised = Good(
            "keys",
            "revoke",
            RetiredFingerprint().Replace(" ", "", StringComparison.Ordinal),
            "--reason",
            "key-compromise",
            "--from",
            "2020-01-01",
            "--out",
            list
        );
        var notGood = _product.Run("verify", old);
        _ = Good("verify", next);

        Assert.Contains("no key signs", none.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("retired:", rotated.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("--revocations", superseded.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("the stated time is before that", stillGood.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("revoked", compromised.StandardOutput, StringComparison.Ordinal);
        Assert.Equal(1, notGood.ExitCode);
        Assert.Contains("NOT GENUINE", notGood.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("FAILED      revocation: ", notGood.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("(key-compromise)", Good("keys", "list").StandardOutput, StringComparison.Ordinal);
        AssertElsewhere(old, list, certificate);
        AssertListed();
        // The list is no reason to doubt the reports of the key that signed it.
        using var elsewhere = new Product();
        var current = elsewhere.Run("verify", next, "--trust", certificate, "--revocations", list);
        Assert.True(current.ExitCode == 0, current.ToString());
        Assert.Contains("none        revocation: ", current.StandardOutput, StringComparison.Ordinal);
    }

    private void AssertListed()
    {
        var keys = JsonNode.Parse(Good("keys", "list", "--format", "json").StandardOutput)![
            "keys"
        ]!.AsArray();

        Assert.Equal(["signs", "retired"], keys.Select(key => key!["state"]!.GetValue<string>()));
        Assert.Equal(
            RetiredFingerprint().Replace(" ", "", StringComparison.Ordinal),
            keys[1]!["sha256"]!.GetValue<string>()
        );
        Assert.Null(keys[0]!["revoked"]);
        Assert.Equal("key-compromise", keys[1]!["revoked"]!["reason"]!.GetValue<string>());
        Assert.Equal("2020-01-01T00:00:00Z", keys[1]!["revoked"]!["from"]!.GetValue<string>());
    }

    /// <summary>Somebody else, with the list and the certificates, comes to the same.</summary>
    private void AssertElsewhere(string report, string list, string next)
    {
        using var elsewhere = new Product();
        var retired = Directory
            .EnumerateFiles(_product.At("home"), "*.pem", SearchOption.AllDirectories)
            .Single(path => path.Contains("/retired/", StringComparison.Ordinal));

        var without = elsewhere.Run("verify", report, "--trust", retired);
        var with = elsewhere.Run(
            "verify",
            report,
            "--trust",
            retired,
            "--trust",
            next,
            "--revocations",
            list
        );
        var unknown = elsewhere.Run("verify", report, "--trust", retired, "--revocations", list);
        var wrong = elsewhere.Run("verify", report, "--revocations", next);

        Assert.Equal((0, 1, 1), (without.ExitCode, with.ExitCode, unknown.ExitCode));
        Assert.Contains("revocation: not asked", without.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("FAILED      revocation: ", with.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("not known   revocation: ", unknown.StandardOutput, StringComparison.Ordinal);
        Manners.HoldForRefusal(wrong);
    }

    /// <summary>A stranger's key under our name is handed in to be revoked; its reports stay a stranger's.</summary>
    [Fact]
    public void Revoke_CertificateInAFile_DoesNotMakeItTrusted()
    {
        _ = Report("ours.pdf");
        using var elsewhere = new Product();
        var (theirs, certificate) = (elsewhere.At("theirs.pdf"), elsewhere.At("theirs.pem"));
        var issued = elsewhere.Run(
            "report",
            Fixtures.PathOf("height-check"),
            "-o",
            theirs,
            "--certificate-out",
            certificate
        );
        Assert.True(issued.ExitCode == 0, issued.ToString());

        _ = Good("keys", "revoke", certificate, "--reason", "superseded", "--from", Now);

        var verified = _product.Run("verify", theirs);
        Assert.Equal(1, verified.ExitCode);
        Assert.Contains("is not trusted here", verified.StandardOutput, StringComparison.Ordinal);
        Assert.DoesNotContain("retired:", Good("keys", "list").StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void Keys_WhatCannotBe_IsRefused()
    {
        _ = Report("job.pdf");
        var signs = Signs().Match(Good("keys", "list").StandardOutput).Groups["digits"].Value;

        ProductOutcome[] refused =
        [
            _product.Run("keys", "revoke", signs, "--reason", "superseded", "--from", Now),
            _product.Run("keys", "revoke", "00000000", "--reason", "superseded", "--from", Now),
            _product.Run("keys", "revoke", signs, "--reason", "lost", "--from", Now),
            _product.Run("keys", "revoke", signs, "--reason", "superseded", "--from", "yesterday"),
            _product.Run("keys", "revoke", signs, "--reason", "superseded", "--from", "2026-03-01T10:00:00"),
            _product.Run("keys", "revoke", signs, "--reason", "superseded", "--from", "2999-01-01"),
            _product.Run("keys", "rotate", "--keys", _product.At("nowhere")),
            _product.Run("keys", "revoke", signs, "--reason", "superseded"),
            _product.Run("keys", "revoke", signs, "--from", Now),
        ];

        Assert.All(refused, Manners.HoldForRefusal);
        Assert.Contains("`keys rotate` first", refused[0].StandardError, StringComparison.Ordinal);
        Assert.Contains("accepted: eight or more digits", refused[1].StandardError, StringComparison.Ordinal);
        Assert.Contains("`yesterday`", refused[3].StandardError, StringComparison.Ordinal);
        Assert.Contains("accepted: `--from 2026-03-01`", refused[7].StandardError, StringComparison.Ordinal);
        Assert.Contains("accepted: key-compromise, ", refused[8].StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void Keys_FileThatIsSomethingElse_IsNotWrittenOver()
    {
        _ = Report("job.pdf");
        _ = Good("keys", "rotate");
        var record = _product.Write("record.json", "{}"u8.ToArray());
        string[] revoke = ["keys", "revoke", .. RetiredFingerprint().Split(' '), "--reason", "superseded"];

        ProductOutcome[] refused =
        [
            _product.Run([.. revoke, "--from", Now, "--out", record]),
            _product.Run("keys", "rotate", "--certificate-out", record),
        ];

        Assert.All(refused, Manners.HoldForRefusal);
        Assert.Equal("{}", File.ReadAllText(record));
        Assert.DoesNotContain("revoked", Good("keys", "list").StandardOutput, StringComparison.Ordinal);
        var list = _product.At("list.pem");
        _ = Good([.. revoke, "--from", Now, "--out", list]);
        _ = Good([.. revoke, "--from", "2020-01-01", "--out", list]);
    }

    [GeneratedRegex(@"retired: .*\n  SHA-256  (?<digits>[0-9a-f ]*)\n")]
    private static partial Regex Retired();

    [GeneratedRegex(@"signs: .*\n  SHA-256  (?<digits>[0-9a-f ]*)\n")]
    private static partial Regex Signs();
}
