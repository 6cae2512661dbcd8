using System.Text.Json;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>What a user meets who asks whether the cases are enough.</summary>
public sealed class RulesTestCommandTests : IDisposable
{
    private const string Rule = "bearings-sound";

    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    private static string Shipped => ReferenceFiles.InRepository("rules");

    private string Changed(string old, string by)
    {
        foreach (var file in Directory.GetFiles(Shipped, "*.json", SearchOption.AllDirectories))
        {
            _product.Write(Path.Combine("new", Path.GetRelativePath(Shipped, file)), File.ReadAllBytes(file));
        }

        var cases = _product.At("new/base/clearance.cases.json");
        var text = File.ReadAllText(cases);
        var at = text.IndexOf(old, StringComparison.Ordinal);
        Assert.True(at > 0);
        File.WriteAllText(cases, text[..at] + by + text[(at + old.Length)..]);
        return _product.At("new");
    }

    /// <summary>The one case of another task is turned into one more of the same.</summary>
    private string WithoutItsTaskCase() =>
        Changed(
            "      \"name\": \"not read, at another task\",\n      \"expect\": \"not-applicable\",\n"
                + "      \"from\": \"full-service-125\",\n      \"patch\": [{ \"op\": \"remove\", \"path\": \"/units/0/entries/0\" }, "
                + "{ \"op\": \"replace\", \"path\": \"/tasks\", \"value\": [\"daily-check\"] }]",
            "      \"name\": \"again\",\n      \"expect\": \"met\",\n      \"from\": \"full-service-125\""
        );

    /// <summary>No case promises any more that a second person lets nothing out.</summary>
    private string WithoutItsReleaseCase() =>
        Changed(
            "      \"name\": \"unproven, and nobody may let that out\",\n      \"expect\": \"unproven\",\n      \"effect\": \"hold\",\n",
            "      \"name\": \"unproven, and nobody may let that out\",\n      \"expect\": \"unproven\",\n"
        );

    [Fact]
    public void Test_RequireCoverageOfACoveredRule_EndsWithZero()
    {
        var outcome = _product.Run("rules", "test", "--rule", Rule, "--require-coverage", "--rules", Shipped);
        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains("verdicts 4 of 4 (100.0 %)", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void Test_ConditionThatNoCaseFails_IsToldAndEndsWithOneOnlyWhenRequired()
    {
        var folder = WithoutItsTaskCase();
        var told = _product.Run("rules", "test", "--rule", Rule, "--coverage", "--rules", folder);
        Assert.True(told.ExitCode == 0, told.ToString());
        Assert.Contains(
            "base/clearance.rules.json:10:9 /rules/0/when/tasks: no case: bearings-sound, when/tasks: alone keeps the rule out",
            told.StandardOutput,
            StringComparison.Ordinal
        );
        var required = _product.Run("rules", "test", "--rule", Rule, "--require-coverage", "--rules", folder);
        Manners.Hold(required);
        Assert.Equal(1, required.ExitCode);
    }

    [Fact]
    public void Test_Mutate_TellsSurvivorsAsJsonWithTheirPlace()
    {
        var outcome = _product.Run(
            "rules",
            "test",
            "--rule",
            Rule,
            "--mutate",
            "--coverage",
            "--format",
            "json",
            "--rules",
            WithoutItsReleaseCase()
        );
        Assert.True(outcome.ExitCode == 1, outcome.ToString());
        using var json = JsonDocument.Parse(outcome.StandardOutput);
        var mutation = json.RootElement.GetProperty("mutation");
        Assert.Equal(4, mutation.GetProperty("caught").GetInt32());
        var survivor = Assert.Single(mutation.GetProperty("survivors").EnumerateArray());
        Assert.Equal("unproven hold -> second-person", survivor.GetProperty("what").GetString());
        Assert.Equal("base/clearance.rules.json", survivor.GetProperty("file").GetString());
        Assert.Equal("/rules/0/unproven", survivor.GetProperty("pointer").GetString());
        Assert.Equal(5, survivor.GetProperty("line").GetInt32());
        Assert.Equal(
            4,
            json.RootElement.GetProperty("coverage").GetProperty("verdict").GetProperty("covered").GetInt32()
        );
    }

    [Fact]
    public void Test_RuleThatIsNotThere_EndsWithTwo()
    {
        var outcome = _product.Run("rules", "test", "--rule", "no-such-rule", "--rules", Shipped);
        Manners.Hold(outcome);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains("there is no rule `no-such-rule`", outcome.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void Test_NoMinutes_IsRefusedWithWhatIsAccepted()
    {
        var outcome = _product.Run("rules", "test", "--mutate", "--minutes", "0", "--rules", Shipped);
        Assert.NotEqual(0, outcome.ExitCode);
        Assert.Contains("a whole number from 1 to 600", outcome.StandardError, StringComparison.Ordinal);
    }
}
