using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Domain.Timeline;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Tests.Documents;

/// <summary>What an entry cannot mean is refused where it stands: nothing that somebody wrote is passed over.</summary>
public sealed class EventMembersTests
{
    private static readonly Dictionary<EventMember, (string Name, string Value)> Members = new()
    {
        [EventMember.Source] = ("source", "\"engine_start\""),
        [EventMember.Lock] = ("lock", "\"L-11\""),
        [EventMember.Position] = ("position", "\"off\""),
        [EventMember.Isolator] = ("isolator", "\"battery disconnect\""),
        [EventMember.Pressure] = ("pressure", "\"0 bar\""),
        [EventMember.Exception] = ("exception", "\"owner away\""),
        [EventMember.AtLockPoint] = ("atLockPoint", "true"),
        [EventMember.ExtraMeasure] = ("extraMeasure", "\"valve handle taken off\""),
        [EventMember.Claim] = ("claim", """{ "kind": "minor-servicing", "routine": true }"""),
        [EventMember.Measures] = ("measures", "[\"long-handled-brush\"]"),
        [EventMember.Count] = ("count", "2"),
        [EventMember.Crews] = ("crews", "[\"shop\"]"),
        [EventMember.Others] = ("others", "[\"lead-01\"]"),
        [EventMember.Task] = ("task", "\"lap\""),
        [EventMember.Procedure] = ("procedure", "\"P-1\""),
    };

    /// <summary>By hand, kind by kind, what besides time, person and words an entry may say.</summary>
    private static readonly Dictionary<TimelineEventKind, EventMember[]> May = new()
    {
        [TimelineEventKind.AffectedNotifiedBefore] = [EventMember.Others],
        [TimelineEventKind.EnergyReviewed] = [EventMember.Others, EventMember.Procedure],
        [TimelineEventKind.KeyRemoved] = [EventMember.Source],
        [TimelineEventKind.UnitsLowered] = [EventMember.Source],
        [TimelineEventKind.UnitSupported] = [EventMember.Source],
        [TimelineEventKind.ReelWedged] = [EventMember.Source],
        [TimelineEventKind.IsolatorOperated] =
        [
            EventMember.Source,
            EventMember.Position,
            EventMember.Isolator,
        ],
        [TimelineEventKind.PlugRemoved] = [EventMember.Source, EventMember.Isolator],
        [TimelineEventKind.PlugControlConfirmed] = [EventMember.Source],
        [TimelineEventKind.LockApplied] =
        [
            EventMember.Source,
            EventMember.Lock,
            EventMember.Position,
            EventMember.Isolator,
        ],
        [TimelineEventKind.TagApplied] =
        [
            EventMember.Source,
            EventMember.Lock,
            EventMember.Position,
            EventMember.Isolator,
            EventMember.AtLockPoint,
            EventMember.ExtraMeasure,
        ],
        [TimelineEventKind.LockRemoved] = [EventMember.Source, EventMember.Lock, EventMember.Exception],
        [TimelineEventKind.TagRemoved] = [EventMember.Source, EventMember.Lock, EventMember.Exception],
        [TimelineEventKind.StoredEnergyReleased] = [EventMember.Source, EventMember.Pressure],
        [TimelineEventKind.StoredEnergyRechecked] = [EventMember.Source, EventMember.Pressure],
        [TimelineEventKind.IsolationVerified] =
        [
            EventMember.Source,
            EventMember.Pressure,
            EventMember.Others,
        ],
        [TimelineEventKind.GlovesWorn] = [EventMember.Others],
        [TimelineEventKind.BlockageClearedWithTool] = [EventMember.Measures],
        [TimelineEventKind.AreaInspected] = [EventMember.Others],
        [TimelineEventKind.PeopleClearChecked] = [EventMember.Others],
        [TimelineEventKind.ExposureChecked] = [EventMember.Others],
        [TimelineEventKind.RemovalNotified] = [EventMember.Others],
        [TimelineEventKind.HandedBack] = [EventMember.Others],
        [TimelineEventKind.MachineStarted] = [EventMember.Task],
        [TimelineEventKind.TestEnergised] = [EventMember.Task],
        [TimelineEventKind.EnergisedTaskPerformed] = [EventMember.Task, EventMember.Measures],
        [TimelineEventKind.AlternativeMeasuresRecorded] =
        [
            EventMember.Task,
            EventMember.Measures,
            EventMember.Others,
        ],
        [TimelineEventKind.PrimaryAssigned] = [EventMember.Others, EventMember.Count],
        [TimelineEventKind.CoordinatorAssigned] = [EventMember.Others, EventMember.Crews],
        [TimelineEventKind.ContractorProceduresExchanged] = [EventMember.Others],
        [TimelineEventKind.HandoverBriefed] = [EventMember.Others],
        [TimelineEventKind.AbsenceConfirmed] = [EventMember.Others],
        [TimelineEventKind.ContactAttempted] = [EventMember.Others],
        [TimelineEventKind.OwnerInformed] = [EventMember.Others],
        [TimelineEventKind.ExemptionClaimed] = [EventMember.Claim],
        [TimelineEventKind.SourceAdded] = [EventMember.Source],
    };

    public static TheoryData<TimelineEventKind> Kinds => [.. Enum.GetValues<TimelineEventKind>()];

    [Fact]
    public void Members_AreAllAskedAbout() =>
        Assert.Equal(Enum.GetValues<EventMember>(), Members.Keys.Order());

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Read_MemberOfAnotherKind_IsRefusedWhereItStands(TimelineEventKind kind)
    {
        var may = May.GetValueOrDefault(kind, []);
        foreach (var (member, (name, _)) in Members)
        {
            var refused = RefusedAt(kind, member);

            Assert.True(
                may.Contains(member) ? refused.Count == 0 : refused.Contains($"/timeline/0/{name}"),
                $"{kind} with {name}: {string.Join(", ", refused)}"
            );
        }
    }

    private static List<string> RefusedAt(TimelineEventKind kind, EventMember with)
    {
        var entry = new JsonObject
        {
            ["event"] = Choices.WordOf(kind),
            ["at"] = "2026-04-13T08:04:00+01:00",
            ["by"] = "tech-01",
        };
        foreach (
            var member in Members.Keys.Where(one =>
                one == with
                || (one == EventMember.Source && EventVocabulary.NeedsSource(kind))
                || (one == EventMember.Lock && EventVocabulary.NeedsLock(kind))
                || (one == EventMember.Claim && EventVocabulary.NeedsClaim(kind))
            )
        )
        {
            entry[Members[member].Name] = JsonNode.Parse(Members[member].Value);
        }

        var record = JsonNode.Parse(SampleRecord.Text)!.AsObject();
        record["timeline"] = new JsonArray(entry);
        var read = RecordFormat.Current.Read(Encoding.UTF8.GetBytes(record.ToJsonString()));
        return read.TryGet(out _, out var problems)
            ? []
            : [.. problems.Told.Select(problem => problem.Pointer)];
    }
}
