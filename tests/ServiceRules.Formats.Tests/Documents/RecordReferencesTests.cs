using System.Text;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Sheets;
using ServiceRules.Rules.Model;
using ServiceRules.TestKit;

namespace ServiceRules.Formats.Tests.Documents;

/// <summary>References of a record to the sheets and rules that the repository ships.</summary>
public sealed class RecordReferencesTests
{
    private static readonly RuleBook Book = new(
        [
            new RulePack
            {
                Id = new("base"),
                Version = "1",
                Title = "base",
                Layer = PackLayer.Base,
                Rules = Shipped(RulePackFormat.Rules, "base", "clearance.rules.json").Rules,
            },
        ],
        [Shipped(LimitSheetFormat.Current, "sheets", "reel-125-9-510.sheet.json")]
    );

    [Fact]
    public void Check_EverythingKnown_IsSilent() => Assert.True(Problems(SampleRecord.Text).IsEmpty);

    [Theory]
    [InlineData(
        "reel-125-9-510",
        "reel-125-9-150",
        "/units/0/sheet",
        "did you mean `reel-125-9-510`? reel-125-9-510"
    )]
    [InlineData(
        "clearance-within-limits",
        "clearance-in-limits",
        "/releases/0/rule",
        "did you mean `clearance-within-limits`? one of"
    )]
    [InlineData("\"blade\": 3", "\"blade\": 10", "/units/0/entries/3/blade", "1 to 9")]
    [InlineData(
        "\"51 mm\"",
        "\"510.1 mm\"",
        "/units/0/entries/3/station",
        "a distance up to the width, 20.08 in (510 mm)"
    )]
    public void Check_OneThingUnknown_IsToldAtItsPlace(
        string right,
        string wrong,
        string pointer,
        string accepted
    )
    {
        int at = SampleRecord.Text.IndexOf(right, StringComparison.Ordinal);
        Problem problem = Assert.Single(
            Problems(SampleRecord.Text[..at] + wrong + SampleRecord.Text[(at + right.Length)..]).Told
        );
        Assert.Equal(pointer, problem.Pointer);
        Assert.StartsWith(accepted, problem.Accepted, StringComparison.Ordinal);
        Assert.True(problem.Line > 1);
    }

    private static ProblemReport Problems(string text)
    {
        bool read = RecordFormat
            .Current.Read(Encoding.UTF8.GetBytes(text))
            .TryGet(out var record, out var source, out var refused);
        Assert.True(read, refused.ToString());
        return RecordReferences.Check(record!, source!, Book);
    }

    private static T Shipped<T>(DocumentFormat<T> format, params string[] path)
        where T : notnull
    {
        byte[] bytes = File.ReadAllBytes(ReferenceFiles.InRepository(["rules", .. path]));
        return format.Read(bytes).TryGet(out T? value, out ProblemReport problems)
            ? value
            : throw new InvalidOperationException(problems.ToString());
    }
}
