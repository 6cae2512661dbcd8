using System.Text;
using System.Text.Json.Nodes;
using FsCheck.Xunit;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Records;

namespace ServiceRules.Formats.Tests.Documents;

public sealed class RecordReadingTests
{
    [Fact]
    public void Read_EveryMember_GivesTheRecord()
    {
        ServiceRecord record = Read(SampleRecord.Text);
        Assert.Equal(new Id<ServiceRecord>("J-2026-0412"), record.Id);
        Assert.Equal(new DateOnly(2026, 4, 13), record.Date);
        Assert.Equal(WorkPlace.OnBench, record.Place);
        Assert.Equal(412.5m, record.Machine.Hours!.Value.Hours);
        Assert.Equal([ServiceTask.FullService, ServiceTask.HeightCheck], record.Tasks.ToArray());
        Assert.Equal(2m, record.Instruments[0].Calibration!.CoverageFactor);
        Assert.Equal("-0.01 mm", record.Instruments[0].ZeroCheck!.Error.ToString());
        Assert.Equal(TimelineEventKind.LockApplied, record.Timeline[1].Kind);
        Assert.Equal(new SourceReference.One(new("engine_start")), record.Timeline[1].Source);
        Assert.IsType<RecordedTime.LocalTime>(record.Timeline[2].At);
        Assert.Equal(new SourceReference.All(), record.Timeline[2].Source);
        Assert.Equal(EntryMark.LateEntry, record.Timeline[3].Mark);
        Assert.Equal(new SourceReference.GroupBox(), record.Timeline[4].Source);
        Assert.Equal("looked at it myself", record.Releases.Single().Reason);
        Assert.Equal(Condition.Sound, record.FollowUp!.Result);
    }

    [Fact]
    public void Read_BenchLog_KeepsItsOrderAndItsKinds()
    {
        var entries = Read(SampleRecord.Text).Units[0].Entries;
        var first = Assert.IsType<Reading>(entries[0]);
        var tried = Assert.IsType<Observation.FeelerTest>(first.Observed);
        Assert.Equal(Length.FromInches(0.002m), tried.Feelers.Single().Value);
        Assert.True(tried.Passes);
        Assert.Equal(new Station.Named(StationName.Left), first.Station);
        Assert.Equal(2, Assert.IsType<Observation.FeelerTest>(((Reading)entries[1]).Observed).Feelers.Length);
        Assert.Equal(new AdjustmentAmount.Steps(2), Assert.IsType<Adjustment>(entries[4]).Amount);
        Assert.Equal(new AdjustmentAmount.NotStated(), Assert.IsType<Adjustment>(entries[6]).Amount);
        Assert.Equal(GrindingKind.ReelSpin, Assert.IsType<Grinding>(entries[11]).Kind);
        Assert.Equal(PartKind.Bedknife, Assert.IsType<PartFitted>(entries[12]).Part);
    }

    [Theory]
    [InlineData("\"coverageFactor\": 2", "\"coverageFactor\": 1")]
    [InlineData("\"coverageFactor\": 2", "\"coverageFactor\": 5")]
    [InlineData("\"expandedUncertainty\": \"0.010 mm\"", "\"expandedUncertainty\": \"1.00 mm\"")]
    [InlineData("\"expandedUncertainty\": \"0.010 mm\"", "\"expandedUncertainty\": \"0.1 µm\"")]
    public void Read_ACertificateAtTheEdgeOfWhatFits_IsRead(string from, string to) =>
        Assert.NotNull(Read(SampleRecord.Text.Replace(from, to, StringComparison.Ordinal)));

    [Fact]
    public void Write_AfterRead_StatesTheSameDocument()
    {
        byte[] written = RecordFormat.Current.Write(Read(SampleRecord.Text));
        JsonNode before = JsonNode.Parse(SampleRecord.Text)!;
        before.AsObject().Remove("$schema");
        Assert.True(JsonNode.DeepEquals(before, JsonNode.Parse(written)), Encoding.UTF8.GetString(written));
        Assert.Equal(written, RecordFormat.Current.Write(Read(Encoding.UTF8.GetString(written))));
    }

    [Theory]
    [InlineData("\"J-2026-0412\"", "\"J 2026\"", "text.pattern", "/id")]
    [InlineData("\"2026-04-13\"", "\"2026-02-30\"", "value.unreadable", "/date")]
    [InlineData("\"412.5 h\"", "\"412.5\"", "text.pattern", "/machine/hours")]
    [InlineData("\"3.8 mph\"", "\"3.8 knots\"", "text.pattern", "/machine/tested/groundSpeed")]
    [InlineData("\"3.8 mph\"", "\"63 mph\"", "value.unreadable", "/machine/tested/groundSpeed")]
    [InlineData("\"2200 rev/min\"", "\"0 rev/min\"", "value.unreadable", "/machine/tested/reelSpeed")]
    [InlineData("\"1 3/4 in\"", "\"0 in\"", "value.unreadable", "/machine/tested/wavePitch")]
    [InlineData(
        "{ \"groundSpeed\": \"3.8 mph\", \"reelSpeed\": \"2200 rev/min\", \"effectiveHeight\": \"3.6 mm\", \"wavePitch\": \"1 3/4 in\" }",
        "{}",
        "value.contradiction",
        "/machine/tested"
    )]
    [InlineData("\"4.0 mm\"", "\"-4.0 mm\"", "value.unreadable", "/requested/0/value")]
    [InlineData(
        "\"coverageFactor\": 2",
        "\"coverageFactor\": 6",
        "value.range",
        "/instruments/0/calibration/coverageFactor"
    )]
    [InlineData(
        "\"coverageFactor\": 2",
        "\"coverageFactor\": 0.9",
        "value.range",
        "/instruments/0/calibration/coverageFactor"
    )]
    [InlineData(
        "\"expandedUncertainty\": \"0.010 mm\"",
        "\"expandedUncertainty\": \"0 mm\"",
        "value.unreadable",
        "/instruments/0/calibration/expandedUncertainty"
    )]
    [InlineData(
        "\"expandedUncertainty\": \"0.010 mm\"",
        "\"expandedUncertainty\": \"1.01 mm\"",
        "value.contradiction",
        "/instruments/0/calibration"
    )]
    [InlineData(
        "\"expandedUncertainty\": \"0.010 mm\"",
        "\"expandedUncertainty\": \"0.09 µm\"",
        "value.contradiction",
        "/instruments/0/calibration"
    )]
    [InlineData("\"2027-01-10\"", "\"2025-01-10\"", "value.contradiction", "/instruments/0/calibration/due")]
    [InlineData("\"id\": \"FG-01\"", "\"id\": \"HG-01\"", "reference.duplicate", "/instruments/1/id")]
    [InlineData(
        "\"by\": \"lead-01\", \"card\"",
        "\"by\": \"lead-02\", \"card\"",
        "reference.dangling",
        "/requested/0/by"
    )]
    [InlineData(
        "\"others\": [\"lead-01\"]",
        "\"others\": [\"lead-03\"]",
        "reference.dangling",
        "/timeline/2/others/0"
    )]
    [InlineData(
        "\"with\": \"HG-01\"",
        "\"with\": \"HG-02\"",
        "reference.dangling",
        "/units/0/entries/7/with"
    )]
    [InlineData(
        "\"unit\": \"U-02-1\", \"reason\"",
        "\"unit\": \"U-02-3\", \"reason\"",
        "reference.dangling",
        "/releases/0/unit"
    )]
    [InlineData(
        "\"mark\": \"late-entry\"",
        "\"mark\": \"late-entry\", \"others\": [\"lead-01\"]",
        "name.missing",
        "/timeline/3/others"
    )]
    [InlineData(
        "\"source\": \"charger\"",
        "\"source\": \"all\"",
        "value.contradiction",
        "/timeline/11/source"
    )]
    [InlineData(
        "\"source\": \"charger\"",
        "\"source\": \"group_box\"",
        "value.contradiction",
        "/timeline/11/source"
    )]
    [InlineData(", \"source\": \"all\"", "", "name.missing", "/timeline/2/event")]
    [InlineData(
        "\"source\": \"group_box\", \"lock\": \"L-11\"",
        "\"source\": \"group_box\"",
        "name.missing",
        "/timeline/4/event"
    )]
    [InlineData("\"24 degC\"", "\"124 degC\"", "value.unreadable", "/temperature")]
    [InlineData("\"24 degC\"", "\"24 C\"", "text.pattern", "/temperature")]
    [InlineData("\"24 degC\"", "\"-40 degC\"", "value.unreadable", "/temperature")]
    [InlineData(
        "\"feeler\": \"0.002 in\"",
        "\"feeler\": \"1.001 in\"",
        "value.unreadable",
        "/units/0/entries/0/feeler"
    )]
    [InlineData("\"95 %\"", "\"96 %\"", "value.unreadable", "/instruments/2/calibration/level")]
    [InlineData(
        "\"coverageFactor\": 2",
        "\"coverageFactor\": 2, \"level\": \"95 %\"",
        "name.missing",
        "/instruments/0/calibration"
    )]
    [InlineData(
        "\"repeatabilityStudies\": [",
        "\"repeatability\": \"0.004 mm\", \"repeatabilityStudies\": [",
        "value.contradiction",
        "/instruments/2/repeatabilityStudies"
    )]
    [InlineData(
        "\"deviation\": \"0.006 mm\", \"degreesOfFreedom\": 4",
        "\"deviation\": \"0.006 mm\", \"degreesOfFreedom\": 0",
        "value.range",
        "/instruments/2/repeatabilityStudies/0/degreesOfFreedom"
    )]
    [InlineData(
        "\"zeroCheck\": { \"error\": \"-0.01 mm\", \"settingPiece\": \"SP-01\" },",
        "",
        "name.missing",
        "/instruments/0/zeroCheckAfter"
    )]
    [InlineData("08:06:00\"", "08:61:00\"", "value.unreadable", "/timeline/2/at")]
    [InlineData("\"0 bar\"", "\"0 atm\"", "text.pattern", "/timeline/2/pressure")]
    [InlineData(
        "\"station\": \"51 mm\"",
        "\"station\": \"-51 mm\"",
        "text.pattern",
        "/units/0/entries/3/station"
    )]
    [InlineData(
        "\"station\": \"51 mm\"",
        "\"station\": \"centre\"",
        "text.pattern",
        "/units/0/entries/3/station"
    )]
    [InlineData(
        "\"kind\": \"height-gauge\"",
        "\"kind\": \"height-gauge\", \"stacking\": \"root-sum\"",
        "value.contradiction",
        "/instruments/0/stacking"
    )]
    [InlineData(
        "\"kind\": \"feeler-gauge\"",
        "\"kind\": \"feeler-gauge\", \"stacking\": \"mean\"",
        "value.choice",
        "/instruments/1/stacking"
    )]
    [InlineData(
        "\"feeler\": \"0.002 in\"",
        "\"feeler\": \"0 in\"",
        "value.unreadable",
        "/units/0/entries/0/feeler"
    )]
    [InlineData(
        "\"feeler\": \"0.002 in\", \"passes\": true",
        "\"feeler\": \"0.002 in\"",
        "name.missing",
        "/units/0/entries/0/feeler"
    )]
    [InlineData(
        "\"contact\": \"light\"",
        "\"contact\": \"light\", \"value\": \"1 mm\"",
        "name.missing",
        "/units/0/entries/2"
    )]
    [InlineData(
        "\"read\": \"clearance\", \"contact\": \"light\"",
        "\"read\": \"guards\", \"contact\": \"light\"",
        "value.contradiction",
        "/units/0/entries/2/read"
    )]
    [InlineData(
        "\"value\": \"4.02 mm\"",
        "\"value\": \"-4.02 mm\"",
        "value.contradiction",
        "/units/0/entries/7/value"
    )]
    [InlineData(
        "\"value\": \"4.02 mm\"",
        "\"value\": \"4020 in\"",
        "value.unreadable",
        "/units/0/entries/7/value"
    )]
    [InlineData(
        "\"value\": \"4.02 mm\"",
        "\"value\": \"402 in\"",
        "value.contradiction",
        "/units/0/entries/7/value"
    )]
    [InlineData(
        "\"direction\": \"close\", \"steps\": 2",
        "\"steps\": 2",
        "name.missing",
        "/units/0/entries/4/steps"
    )]
    [InlineData(
        "\"direction\": \"close\", \"steps\": 2",
        "\"direction\": \"raise\", \"steps\": 2",
        "value.contradiction",
        "/units/0/entries/4/direction"
    )]
    [InlineData("\"steps\": 2", "\"steps\": 0", "value.range", "/units/0/entries/4/steps")]
    [InlineData(
        "\"turn\": \"clearance\"",
        "\"turn\": \"clearance\", \"read\": \"clearance\"",
        "name.missing",
        "/units/0/entries/4"
    )]
    [InlineData("\"turn\": \"clearance\", ", "", "name.missing", "/units/0/entries/4")]
    [InlineData(
        "\"after\": \"124.6 mm\"",
        "\"after\": \"124.9 mm\"",
        "value.contradiction",
        "/units/0/entries/11/after"
    )]
    [InlineData("\"signOff\"", "\"signedOff\"", "name.unknown", "/signedOff")]
    [InlineData(
        "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef",
        "0123",
        "text.length",
        "/photos/0/sha256"
    )]
    public void Read_OneThingWrong_IsToldWhereItStands(
        string right,
        string wrong,
        string code,
        string pointer
    )
    {
        Assert.Contains(right, SampleRecord.Text, StringComparison.Ordinal);
        int at = SampleRecord.Text.IndexOf(right, StringComparison.Ordinal);
        string text = SampleRecord.Text[..at] + wrong + SampleRecord.Text[(at + right.Length)..];
        Assert.False(
            RecordFormat.Current.Read(Encoding.UTF8.GetBytes(text)).TryGet(out _, out ProblemReport problems)
        );
        Assert.Contains((code, pointer), problems.Told.Select(problem => (problem.Code, problem.Pointer)));
        Assert.All(problems.Told, problem => Assert.NotEmpty(problem.Accepted));
    }

    // Student's two-sided factors (JCGM 100:2008, table G.2): 6.31 and 2.92 at 90 % on 1 and 2; 12.71 and 4.30 at 95 %;
    // 13.97 and 4.53 at 95.45 %; 5.84 and 4.60 at 99 % on 3 and 4; 5.51 and 4.90 at 99.73 % on 5 and 6; 1.84 at 68.27 % on 1.
    [Theory]
    [InlineData("90 %", 1, 2)]
    [InlineData("95 %", 1, 2)]
    [InlineData("95.45 %", 1, 2)]
    [InlineData("99 %", 3, 4)]
    [InlineData("99.73 %", 5, 6)]
    [InlineData("68.27 %", null, 1)]
    public void Read_LevelOnFewDegreesOfFreedom_ObeysTheBoundsOfAStatedFactor(
        string level,
        int? refused,
        int accepted
    )
    {
        Assert.NotNull(Read(Certified(level, accepted)));
        if (refused is not { } few)
        {
            return;
        }

        Assert.False(
            RecordFormat
                .Current.Read(Encoding.UTF8.GetBytes(Certified(level, few)))
                .TryGet(out _, out var problems)
        );
        var told = Assert.Single(problems.Told);
        Assert.Equal(
            ("value.contradiction", "/instruments/2/calibration/degreesOfFreedom"),
            (told.Code, told.Pointer)
        );
        Assert.Contains("a coverage factor from 1 to 5", told.Accepted, StringComparison.Ordinal);
    }

    private static string Certified(string level, int degreesOfFreedom) =>
        SampleRecord
            .Text.Replace("\"95 %\"", $"\"{level}\"", StringComparison.Ordinal)
            .Replace(
                "\"degreesOfFreedom\": 12",
                $"\"degreesOfFreedom\": {degreesOfFreedom}",
                StringComparison.Ordinal
            );

    [Fact]
    public void Read_TwoUnitsAtOnePosition_IsRefusedOnTheMachineAndNotOnTheBench()
    {
        string same = SampleRecord.Text.Replace(
            "\"position\": 2",
            "\"position\": 1",
            StringComparison.Ordinal
        );
        Assert.Equal(2, Read(same).Units.Length);
        string mounted = same.Replace("on-bench", "on-machine", StringComparison.Ordinal);
        Assert.False(
            RecordFormat.Current.Read(Encoding.UTF8.GetBytes(mounted)).TryGet(out _, out var problems)
        );
        Assert.Equal(
            ("value.contradiction", "/units"),
            (problems.Told.Single().Code, problems.Told.Single().Pointer)
        );
    }

    [Fact]
    public void Read_EveryPrefix_IsOneProblem()
    {
        byte[] whole = Encoding.UTF8.GetBytes(SampleRecord.Text);
        for (int length = 0; length < whole.Length; length++)
        {
            RecordFormat.Current.Read(whole.AsMemory(0, length)).TryGet(out _, out ProblemReport problems);
            Assert.Single(problems.Told);
        }
    }

    [Property(MaxTest = 1_000)]
    public bool Read_MutatedBytes_EndsInAnAnswer(ushort[] places, byte[] units)
    {
        byte[] mutated = Encoding.UTF8.GetBytes(SampleRecord.Text);
        for (int i = 0; i < Math.Min(places.Length, units.Length); i++)
        {
            mutated[places[i] % mutated.Length] = units[i];
        }

        bool read = RecordFormat.Current.Read(mutated).TryGet(out _, out ProblemReport problems);
        return read == problems.IsEmpty
            && problems.Told.All(problem => problem is { Line: >= 1, Column: >= 1 });
    }

    private static ServiceRecord Read(string text)
    {
        bool read = RecordFormat
            .Current.Read(Encoding.UTF8.GetBytes(text))
            .TryGet(out var record, out var problems);
        Assert.True(read, problems.ToString());
        return record!;
    }
}
