using System.Globalization;
using System.Text;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Library;
using ServiceRules.TestKit;

namespace ServiceRules.Conformance.Tests;

/// <summary>The command line switches cultures off; a service that hosts the same floors may not.</summary>
public sealed class CultureTests
{
    private static readonly string[] Jobs =
    [
        "full-service-125",
        "grind-125",
        "height-check-by-two",
        "full-service-200",
    ];

    [Theory]
    [InlineData("tr-TR")]
    [InlineData("ar-SA")]
    [InlineData("de-DE")]
    [InlineData("fa-IR")]
    public void Assess_UnderAnotherCulture_GivesTheSameBytes(string name)
    {
        var expected = Under(CultureInfo.InvariantCulture, All);

        Assert.Equal(expected, Under(Adorned(name), All));
    }

    private static string All()
    {
        var loaded = RuleFolder.Load(ReferenceFiles.InRepository("rules"));
        Assert.True(loaded.IsSound);
        var judging = new AssessRecord(loaded.Book, loaded.Site!);
        var answers = new StringBuilder();
        foreach (var job in Jobs)
        {
            var bytes = File.ReadAllBytes(
                ReferenceFiles.InRepository("rules", "base", "fixtures", job + ".record.json")
            );
            var judged = Assert.IsType<AssessOutcome.Judged>(judging.Assess(bytes));
            answers.Append(Encoding.UTF8.GetString(judged.Assessed.Evidence.Context.Bytes.Span)).Append('\n');
            answers.Append(Encoding.UTF8.GetString(judged.Assessed.Evidence.Rules.Bytes.Span)).Append('\n');
            answers
                .Append(Encoding.UTF8.GetString(judged.Assessed.Evidence.Assessment.Bytes.Span))
                .Append('\n');
        }

        return answers.ToString();
    }

    /// <summary>Also on a machine without the data of the culture, what it would change most is changed.</summary>
    private static CultureInfo Adorned(string name)
    {
        var culture = (CultureInfo)CultureInfo.GetCultureInfo(name, predefinedOnly: false).Clone();
        culture.NumberFormat.NumberDecimalSeparator = "٫";
        culture.NumberFormat.NumberGroupSeparator = ".";
        culture.NumberFormat.NegativeSign = "−";
        culture.DateTimeFormat.DateSeparator = ".";
        culture.DateTimeFormat.TimeSeparator = ".";
        return culture;
    }

    private static string Under(CultureInfo culture, Func<string> work)
    {
        var before = CultureInfo.CurrentCulture;
        CultureInfo.CurrentCulture = culture;
        try
        {
            return work();
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
