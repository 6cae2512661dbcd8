using System.Text;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>What a record may claim of its gauge, against the register of the demo's site, and what is said of it.</summary>
public sealed class CheckGaugesTests : IDisposable
{
    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    /// <summary>Without asking for all: what is not believed of a gauge stands in the short answer too.</summary>
    [Fact]
    public void Check_AGaugeThatIsNotRegistered_IsToldInTheShortAnswer()
    {
        var text = File.ReadAllText(ReferenceFiles.InRepository("docs", "examples", "verdicts", "met.json"))
            .Replace("HG-01", "HG-77", StringComparison.Ordinal);
        var path = _product.Write("gauge.json", Encoding.UTF8.GetBytes(text));

        Assert.Contains(
            "note: the register of gauges does not have HG-77",
            _product.Run("check", path).StandardOutput,
            StringComparison.Ordinal
        );
    }

    private string Checked(params (string From, string To)[] changes)
    {
        var text = File.ReadAllText(ReferenceFiles.InRepository("docs", "examples", "verdicts", "met.json"));
        foreach (var (from, to) in changes)
        {
            Assert.Contains(from, text, StringComparison.Ordinal);
            text = text.Replace(from, to, StringComparison.Ordinal);
        }

        var path = _product.Write("gauge.json", Encoding.UTF8.GetBytes(text));
        return _product.Run("check", path, "--all").StandardOutput;
    }

    private static void Holds(string output, string told)
    {
        Assert.Contains("HOLD", output, StringComparison.Ordinal);
        Assert.Contains(told, output, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_TheGaugeAsRegistered_MayGoOut()
    {
        var output = Checked();

        Assert.Contains("may go out", output, StringComparison.Ordinal);
        Assert.DoesNotContain("gauge HG-01 the record has", output, StringComparison.Ordinal);
        Assert.DoesNotContain("register of gauges", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("paper-strip")]
    [InlineData("bench-plate")]
    [InlineData("angle-gauge")]
    [InlineData("feeler-gauge")]
    public void Check_AHeightByWhatReadsNone_IsNotProven(string kind) =>
        Holds(Checked(("\"height-gauge\"", $"\"{kind}\"")), "cannot read height of cut");

    [Fact]
    public void Check_AnotherKindThanTheRegisters_TellsBoth() =>
        Holds(
            Checked(("\"height-gauge\"", "\"calliper\"")),
            "The record calls gauge HG-01 a calliper, the register a height gauge"
        );

    /// <summary>3.82 mm lies within 3.93 mm by any gauge; what is believed of this one is told all the same.</summary>
    [Fact]
    public void Check_AFinerStepThanTheRegisters_TellsBothAndCountsTheCoarser() =>
        Assert.Contains(
            "gauge HG-01 states a resolution of 0.0001 mm, and the register has 0.01 mm",
            Checked(
                ("\"resolution\": \"0.01 mm\"", "\"resolution\": \"0.0001 mm\""),
                ("\"expandedUncertainty\": \"0.010 mm\"", "\"expandedUncertainty\": \"0.001 mm\"")
            ),
            StringComparison.Ordinal
        );

    [Fact]
    public void Check_AGaugeThatIsNotRegisteredWithACertificateForACentury_TellsBoth()
    {
        var output = Checked(
            ("HG-01", "HG-77"),
            (
                "\"date\": \"2026-01-10\", \"due\": \"2027-01-10\"",
                "\"date\": \"1990-01-01\", \"due\": \"2099-12-31\""
            )
        );

        Holds(output, "claims to hold until 2099-12-31; none is believed for longer than five years");
    }

    [Fact]
    public void Check_AGaugeThatIsNotRegistered_IsTold()
    {
        var output = Checked(("HG-01", "HG-77"), ("\"due\": \"2027-01-10\"", "\"due\": \"2099-12-31\""));

        Assert.Contains("the register of gauges does not have HG-77", output, StringComparison.Ordinal);
        Assert.Contains("claims to hold until 2099-12-31", output, StringComparison.Ordinal);
    }

    /// <summary>A gauge that is registered for lips and lands reads no height.</summary>
    [Fact]
    public void Check_AGaugeRegisteredForSomethingElse_IsNotProven() =>
        Holds(
            Checked(("HG-01", "CL-01"), ("\"height-gauge\"", "\"calliper\"")),
            "the register keeps gauge CL-01 for bedknife lip, land width, and not for height of cut"
        );

    /// <summary>4.20 mm by the registered gauge is out, however many names nobody knows read 3.80.</summary>
    [Fact]
    public void Check_InventedGaugesAgainstTheRegisteredOne_LeaveItOut()
    {
        const string gauge =
            "\"kind\": \"height-gauge\", \"resolution\": \"0.01 mm\", \"calibration\": { \"date\": \"2026-01-10\", \"due\": \"2027-01-10\", \"expandedUncertainty\": \"0.010 mm\", \"coverageFactor\": 2 } }";
        const string read = "\"read\": \"height-of-cut\", \"station\": \"left\", \"value\":";

        var output = Checked(
            (
                "\"instruments\": [",
                $"\"instruments\": [ {{ \"id\": \"HG-98\", {gauge}, {{ \"id\": \"HG-99\", {gauge},"
            ),
            (
                $"{{ {read} \"3.82 mm\", \"with\": \"HG-01\" }}",
                $"{{ {read} \"4.20 mm\", \"with\": \"HG-01\" }}, {{ {read} \"3.80 mm\", \"with\": \"HG-98\" }}, {{ {read} \"3.80 mm\", \"with\": \"HG-99\" }}"
            )
        );

        Holds(output, "OUT, holds  Height on target");
        Assert.Contains("is not in the register of gauges", output, StringComparison.Ordinal);
    }

    /// <summary>U = 0.0000005 mm is a twentieth of a step of 0.00001 mm that nobody shows: held against the step that counts it is refused.</summary>
    [Fact]
    public void Check_AUncertaintyFitForAStepThatNobodyShows_IsRefused()
    {
        var path = _product.Write(
            "gauge.json",
            Encoding.UTF8.GetBytes(
                File.ReadAllText(ReferenceFiles.InRepository("docs", "examples", "verdicts", "met.json"))
                    .Replace(
                        "\"resolution\": \"0.01 mm\"",
                        "\"resolution\": \"0.00001 mm\"",
                        StringComparison.Ordinal
                    )
                    .Replace("\"0.010 mm\"", "\"0.0000005 mm\"", StringComparison.Ordinal)
            )
        );

        var outcome = _product.Run("check", path);

        Assert.Contains(
            "does not fit the step that the gauge shows",
            outcome.StandardError + outcome.StandardOutput,
            StringComparison.Ordinal
        );
    }
}
