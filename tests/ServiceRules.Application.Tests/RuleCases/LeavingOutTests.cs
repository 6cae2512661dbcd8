using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.TestKit;

namespace ServiceRules.Application.Tests.RuleCases;

/// <summary>
/// Each limit sheet's taught procedure, recorded as a technician would, may go out; a record that lacks anything
/// required never may. What is not required is listed in <see cref="NotRequired"/>, with the reason.
/// </summary>
public sealed class LeavingOutTests
{
    private static readonly LoadedRules Rules = RuleFolder.Load(ReferenceFiles.InRepository("rules"));
    private static readonly RuleEngine Engine = new();

    // Judged once for all tests of the class, which run one after another.
    private static readonly Dictionary<
        string,
        List<(JsonNode Part, string Pointer, bool IsReleased)>
    > Judged = new(StringComparer.Ordinal);

    public static TheoryData<string> Fixtures() => [.. FixtureParts.Names()];

    [Theory]
    [InlineData("full-service-125", "reel-125-9-510")]
    [InlineData("full-service-180", "reel-180-7-660")]
    [InlineData("full-service-200", "reel-200-6-760")]
    public void Assess_TaughtProcedureOfEachSheet_MayGoOut(string fixture, string sheet)
    {
        JsonObject record = FixtureParts.Record(fixture);
        Assert.Equal(sheet, record["units"]![0]!["sheet"]!.GetValue<string>());
        Assert.True(IsReleased(fixture, record));
    }

    [Theory]
    [MemberData(nameof(Fixtures))]
    public void Assess_AnythingRequiredLeftOut_NeverGoesOut(string fixture)
    {
        List<string> wrong = [];
        int kept = 0;
        foreach (var (part, pointer, isReleased) in LeftOut(fixture))
        {
            kept += isReleased ? 0 : 1;
            if (isReleased && !IsNotRequired(fixture, part, pointer))
            {
                wrong.Add($"goes out without {pointer}: {part.ToJsonString()}");
            }
        }

        Assert.Equal([], wrong);
        Assert.True(kept > 0);
    }

    /// <summary>The list of what is not required says nothing idle: each line lets something out somewhere.</summary>
    [Fact]
    public void NotRequired_EachLine_IsTrueOfSomeFixture()
    {
        HashSet<NotRequired> used = [];
        foreach (string fixture in FixtureParts.Names())
        {
            foreach (var (part, pointer, without) in FixtureParts.LeftOut(FixtureParts.Record(fixture)))
            {
                if (
                    Lines(fixture, part, pointer).FirstOrDefault() is { } line
                    && IsReleased(fixture, without)
                )
                {
                    used.Add(line);
                }
            }
        }

        Assert.Equal([], NotRequired.All.Except(used).Select(line => line.Why));
    }

    private static List<(JsonNode Part, string Pointer, bool IsReleased)> LeftOut(string fixture)
    {
        if (!Judged.TryGetValue(fixture, out var judged))
        {
            Judged[fixture] = judged = [
                .. FixtureParts
                    .LeftOut(FixtureParts.Record(fixture))
                    .Select(one => (one.Part, one.Pointer, IsReleased(fixture, one.Without))),
            ];
        }

        return judged;
    }

    private static bool IsNotRequired(string fixture, JsonNode part, string pointer) =>
        Lines(fixture, part, pointer).Any();

    private static IEnumerable<NotRequired> Lines(string fixture, JsonNode part, string pointer) =>
        NotRequired.All.Where(line =>
            (line.Fixtures.Length == 0 || line.Fixtures.Contains(fixture)) && line.Part(part, pointer)
        );

    /// <summary>A record that is not even read never goes out.</summary>
    private static bool IsReleased(string fixture, JsonObject json)
    {
        if (
            !RecordFormat
                .Current.Read(Encoding.UTF8.GetBytes(json.ToJsonString()))
                .TryGet(out ServiceRecord? record, out _)
        )
        {
            return false;
        }

        Assert.True(
            ContextFormat
                .Current.Read(FixtureParts.Context(fixture))
                .TryGet(out AssessmentContext? context, out _)
        );
        Assessment assessment = Engine.Assess(record, context!, Rules.Book, new("", "", ""));
        return assessment.Job.Disposition is Disposition.Release
            && assessment.Units.All(unit => unit.Outcome.Disposition is Disposition.Release);
    }
}
