using System.Text.Json;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Timeline;
using ServiceRules.TestKit;

namespace ServiceRules.Domain.Tests.Timeline;

/// <summary>
/// Against the published cases in tests/reference/evidence/timestamps (JSON-Schema-Test-Suite, draft 2020-12,
/// formats date-time, date and time) and the RFC 3339 examples beside them. Where this product means to differ,
/// the difference and its reason stand here, and a difference that no longer occurs fails too.
/// </summary>
public sealed class RecordedTimeReferenceTests
{
    private const string Years = "lies outside the years 1990 to 2200";
    private const string Decimals = "has more than 7 decimals of a second";

    /// <summary>Valid by the standard, refused here: the value and the reason given.</summary>
    private static readonly Dictionary<string, string> RefusedHere = new(StringComparer.Ordinal)
    {
        ["1963-06-19T08:30:06.283185Z"] = Years,
        ["1963-06-19T08:30:06Z"] = Years,
        ["1963-06-19t08:30:06.283185z"] = Years,
        ["1937-01-01T12:00:27.87+00:20"] = Years,
        ["1985-04-12T00:59:59.999999999999999Z"] = Years,
        ["1985-04-12T23:20:50.52Z"] = Years,
        ["0000-01-01T00:00:00Z"] = Years,
        ["9999-12-31T23:59:59.9999999-00:01"] = Years,
        ["2026-03-01T12:00:00.123456789Z"] = Decimals,
        ["1963-06-19T12:00:00Z"] = Years,
        ["0400-02-29T12:00:00Z"] = Years,
        ["0001-01-01T12:00:00Z"] = Years,
        ["1582-10-10T12:00:00Z"] = Years,
    };

    /// <summary>Invalid by the standard for want of an offset, read here as a kind of its own.</summary>
    private static readonly HashSet<string> ReadAsLocal = new(StringComparer.Ordinal)
    {
        "2026-03-01T12:00:00",
        "1998-12-31T12:00:00",
        "1998-12-31T12:00:00.52",
        "1999-01-01T12:00:00",
        "1999-01-01T12:00:00.52",
    };

    [Fact]
    public void Parse_PublishedDateTimes_AgreeSaveTheStatedDifferences() =>
        AssertVerdicts(
            Cases("date-time.json").Select(item => (Value(item), IsValid(item))),
            expectedCases: 27
        );

    [Fact]
    public void Parse_PublishedDatesAtNoon_AgreeSaveTheStatedDifferences() =>
        AssertVerdicts(
            Cases("date.json").Select(item => ($"{Value(item)}T12:00:00Z", IsValid(item))),
            expectedCases: 75
        );

    // A leap second with offset falls on one of two local dates, so each time is tried on both.
    [Fact]
    public void Parse_PublishedTimes_AgreeOnTheDateOfALeapSecond()
    {
        List<JsonElement> cases = Cases("time.json");
        Assert.Equal(41, cases.Count);
        foreach (JsonElement item in cases)
        {
            string[] texts = [$"1998-12-31T{Value(item)}", $"1999-01-01T{Value(item)}"];
            bool isInstant = texts.Any(text =>
                RecordedTime.Parse(text).TryGet(out RecordedTime? read, out _) && read is RecordedTime.Instant
            );
            bool isLocal = texts.All(text =>
                RecordedTime.Parse(text).TryGet(out RecordedTime? read, out _)
                && read is RecordedTime.LocalTime
            );

            Assert.True(isInstant == IsValid(item), $"{Value(item)} read as a moment: {isInstant}");
            Assert.Equal(texts.All(ReadAsLocal.Contains), isLocal);
        }
    }

    [Fact]
    public void Parse_ExamplesOfTheStandard_AgreeSaveTheStatedDifferences() =>
        AssertVerdicts(
            Cases("rfc3339-extra.json")
                .Select(item => (Value(item), item.GetProperty("valid").ValueKind is JsonValueKind.True)),
            expectedCases: 18
        );

    [Fact]
    public void Moment_ExamplesOfTheStandard_AreTheStatedInstants()
    {
        int compared = 0;
        foreach (JsonElement item in Cases("rfc3339-extra.json"))
        {
            if (
                item.TryGetProperty("utc", out JsonElement utc)
                && utc.GetString() is { } expected
                && expected.EndsWith('Z')
                && RecordedTime.Parse(Value(item)).TryGet(out RecordedTime? read, out _)
            )
            {
                Assert.Equal(expected, Assert.IsType<RecordedTime.Instant>(read).Moment.ToString());
                compared++;
            }
        }

        Assert.Equal(3, compared);
    }

    private static void AssertVerdicts(IEnumerable<(string Text, bool IsValid)> cases, int expectedCases)
    {
        int seen = 0;
        foreach ((string text, bool isValid) in cases)
        {
            seen++;
            bool isRead = RecordedTime.Parse(text).TryGet(out RecordedTime? time, out ParseFailure? failure);
            if (RefusedHere.TryGetValue(text, out string? reason))
            {
                Assert.True(isValid, $"{text} is no difference: the standard refuses it too");
                Assert.Equal(reason, failure?.Problem);
            }
            else if (ReadAsLocal.Contains(text))
            {
                Assert.False(isValid);
                Assert.IsType<RecordedTime.LocalTime>(time);
            }
            else
            {
                Assert.True(isRead == isValid, $"{text}: {failure}");
                Assert.True(time is null or RecordedTime.Instant, text);
            }
        }

        Assert.Equal(expectedCases, seen);
    }

    private static List<JsonElement> Cases(string file) =>
        [
            .. JsonElement
                .Parse(ReferenceFiles.ReadText("evidence", "timestamps", file))
                .GetProperty("cases")
                .EnumerateArray(),
        ];

    private static string Value(JsonElement item) => item.GetProperty("value").GetString()!;

    private static bool IsValid(JsonElement item) => item.GetProperty("valid").GetBoolean();
}
