using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using ServiceRules.Client;
using ServiceRules.TestKit;

namespace ServiceRules.Host.Tests.Clients;

/// <summary>What goes through the client arrives, and comes back.</summary>
public sealed class TypedClientTests(SharedService shared) : IClassFixture<SharedService>
{
    // As many as a quantity may have; as a binary number its end would be lost.
    private const string ManyDigits = "3.80000000010 mm";
    private const string TooMany = "3.810000000000000000001 mm";

    // As the client writes.
    private static readonly JsonSerializerOptions Writing = new()
    {
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    };

    private readonly ServiceRun _run = shared.Run;

    public static TheoryData<string> Fixtures =>
        [
            .. Directory
                .EnumerateFiles(
                    ReferenceFiles.InRepository("rules"),
                    "*.record.json",
                    SearchOption.AllDirectories
                )
                .Select(file => Path.GetRelativePath(ReferenceFiles.Root, file))
                .Order(StringComparer.Ordinal),
        ];

    [Fact]
    public async Task Quantity_OfManyDigits_GoesThroughAndBackWithAllOfThem()
    {
        var record = TypedRecord.Of(ServiceRun.Record("height-check", ("F-height-check", "J-digits")));
        record.Units[0].Entries![1].Value = ManyDigits;

        var filed = await _run.Typed.SubmitRecordAsync(record);
        var read = await _run.Typed.ReadRecordAsync("J-digits");
        var kept = await _run.TextAsync("api/records/J-digits");

        Assert.True(filed.IsNew);
        Assert.Equal(ManyDigits, read.Record!.Units[0].Entries![1].Value);
        Assert.Contains($"\"{ManyDigits}\"", kept, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Quantity_OfMoreDigitsThanAreRead_ArrivesWithAllOfThemAndIsRefused()
    {
        var record = TypedRecord.Of(ServiceRun.Record("height-check", ("F-height-check", "J-digits-2")));
        record.Units[0].Entries![1].Value = TooMany;

        var refused = await Assert.ThrowsAsync<ServiceException<ProblemDocument>>(() =>
            _run.Typed.SubmitRecordAsync(record)
        );

        var problem = Assert.Single(refused.Result.Problems!);
        Assert.Equal(("/units/0/entries/1/value", TooMany), (problem.Pointer, problem.Found));
    }

    [Theory]
    [MemberData(nameof(Fixtures))]
    public void Record_OfTheShippedRules_IsWrittenAsItWasRead(string file)
    {
        var text = File.ReadAllBytes(Path.Combine(ReferenceFiles.Root, file));

        var again = JsonSerializer.SerializeToNode(TypedRecord.Of(text), Writing);

        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(text), again), again!.ToJsonString());
    }

    [Fact]
    public void Feelers_StackedInOneReading_AreWrittenAsTheyWereRead()
    {
        const string entry =
            """{"read":"gap","feeler":["0.025 mm","0.050 mm"],"passes":true,"of a later version":[1]}""";

        var read = JsonSerializer.Deserialize<ServiceRecordBenchEntry>(entry);

        var written = JsonSerializer.SerializeToNode(read, Writing);
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(entry), written), written!.ToJsonString());
    }

    [Fact]
    public async Task Refusal_OfADocument_ComesWithEveryProblemAndItsPlace()
    {
        var record = TypedRecord.Of(ServiceRun.Record("height-check", ("F-height-check", "J-refused")));
        record.Date = "2026-13-40";
        record.Units[0].Entries![1].Value = "3.82";

        var refused = await Assert.ThrowsAsync<ServiceException<ProblemDocument>>(() =>
            _run.Typed.SubmitRecordAsync(record)
        );

        Assert.Equal(422, refused.StatusCode);
        Assert.Equal("/api#problem-refused", refused.Result.Type);
        Assert.Equal(
            ["/date", "/units/0/entries/1/value"],
            refused.Result.Problems!.Select(problem => problem.Pointer).Order(StringComparer.Ordinal)
        );
    }

    [Fact]
    public async Task Key_SentAgain_GetsTheFirstAnswerAndWithAnotherBodyNone()
    {
        const string key = "\"typed-1\"";
        var record = TypedRecord.Of(
            ServiceRun.Record("height-check", ("F-height-check", "J-key"), ("2026-04-13", "2026-04-20"))
        );

        var first = await _run.Typed.SubmitRecordAsync(record, idempotency_Key: key);
        var again = await _run.Typed.SubmitRecordAsync(record, idempotency_Key: key);
        record.Complaint = "ragged";
        var refused = await Assert.ThrowsAsync<ServiceException<ProblemDocument>>(() =>
            _run.Typed.SubmitRecordAsync(record, idempotency_Key: key)
        );

        Assert.True(again.IsNew);
        Assert.Equal(first.Record.Index, again.Record.Index);
        Assert.Equal("/api#problem-key-reused", refused.Result.Type);
    }

    [Fact]
    public async Task Asker_WithoutKey_IsToldThatNobodyIsKnown()
    {
        using var nobody = _run.ClientWith(null);

        var refused = await Assert.ThrowsAsync<ServiceException<ProblemDocument>>(() =>
            new ServiceClient(nobody).ListRecordsAsync()
        );

        Assert.Equal(401, refused.StatusCode);
        Assert.Equal("/api#problem-not-known", refused.Result.Type);
    }

    [Fact]
    public async Task Example_OfTheText_IsARecordThatIsFiled()
    {
        var example = JsonNode.Parse(await _run.TextAsync("openapi/v1.json"))!["components"]!["examples"]![
            "service-record"
        ]!["value"]!;
        example["date"] = "2026-04-22";

        var judged = await _run.Typed.JudgeAsync(
            TypedRecord.Of(
                Encoding.UTF8.GetBytes(
                    example.ToJsonString().Replace("2026-04-13", "2026-04-22", StringComparison.Ordinal)
                )
            )
        );

        Assert.Equal("release", judged.Job.Disposition);
    }
}
