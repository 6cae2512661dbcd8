using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Evidence;
using ServiceRules.Formats.Assessments;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

public sealed class CheckCommandTests : IDisposable
{
    private const string Good = "full-service-125";

    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    [Fact]
    public void Check_JobThatMayGoOut_EndsWithZero()
    {
        var outcome = _product.Run("check", Fixtures.PathOf(Good));

        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains("may go out", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Empty(outcome.StandardError);
    }

    [Fact]
    public void Check_JobThatNobodySignedOff_EndsWithOneAndSaysSo()
    {
        var job = JsonNode.Parse(Fixtures.Bytes(Good))!.AsObject();
        Assert.True(job.Remove("signOff"));
        var open = _product.Write("open.json", Encoding.UTF8.GetBytes(job.ToJsonString()));

        var outcome = _product.Run("check", open);

        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 1, outcome.ToString());
        Assert.Contains("nobody has signed the job off", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_JobBeforeHandsGoIn_ListsWhatIsMissingInTheOrderInWhichItIsDone()
    {
        var job = JsonNode.Parse(Fixtures.Bytes("height-check"))!.AsObject();
        Assert.True(job.Remove("signOff"));
        job["timeline"] = new JsonArray();
        var open = _product.Write("open.json", Encoding.UTF8.GetBytes(job.ToJsonString()));

        var outcome = _product.Run("check", open);

        Manners.Hold(outcome);
        string[] steps =
        [
            "Before hands go in: work may not begin yet",
            "The people affected told beforehand",
            "The energy sources and controls gone through",
            "The machine shut down",
            "The key out and kept",
            "The isolator turned off for engine start",
            "An own lock or control of tech-02 on engine start",
            "The stored energy released for",
            "The isolation verified for",
            "Gloves worn by tech-02",
            "Job and safe work, otherwise",
        ];
        var places = steps.Select(step => outcome.StandardOutput.IndexOf(step, StringComparison.Ordinal));
        Assert.All(places, place => Assert.True(place >= 0, outcome.ToString()));
        Assert.Equal(places.Order(), places);
    }

    [Fact]
    public void Check_OneLockAndOnePersonOnTwoMachinesAtOnce_TellsBothOnlyWhereTheRecordsAreGivenTogether()
    {
        var here = _product.Write("here.json", Fixtures.Bytes("height-check"));
        var there = _product.Write(
            "there.json",
            Fixtures.Changed("height-check", ("F-height-check", "F-elsewhere"), ("\"M-02\"", "\"M-03\""))
        );

        var alone = _product.Run("check", there);
        var together = _product.Run("check", here, there);

        Assert.DoesNotContain("A lock is in one place", alone.StandardOutput, StringComparison.Ordinal);
        Manners.Hold(together);
        Assert.True(together.ExitCode == 1, together.ToString());
        Assert.Contains("L-21 is entered as put on here", together.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("and hung on M-03", together.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("and hung on M-02", together.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("who had hands in M-03", together.StandardOutput, StringComparison.Ordinal);
    }

    /// <summary>Units that one record lowers, or the machine that it runs, over hands of the other: told at both.</summary>
    [Theory]
    [InlineData(
        "08:20:00 units_lowered",
        "and record F-elsewhere shows tech-02 with hands in M-02 from ",
        "Record F-height-check shows the units lowered at 08:20"
    )]
    [InlineData(
        "08:31:00 machine_started\n08:32:00 machine_shut_down",
        "and record F-elsewhere shows tech-02 with hands in M-02 at 08:31:40, the guards back in place",
        "Record F-height-check shows the machine started at 08:31"
    )]
    public void Check_UnitsMovedOrMachineRunOverHandsOfAnotherRecord_IsToldAtBoth(
        string entries,
        string here,
        string there
    )
    {
        var job = JsonNode.Parse(Fixtures.Bytes("height-check"))!.AsObject();
        job["timeline"] = new JsonArray([
            .. entries
                .Split('\n')
                .Select(line => line.Split(' '))
                .Select(entry => new JsonObject
                {
                    ["event"] = entry[1],
                    ["at"] = $"2026-04-13T{entry[0]}+01:00",
                    ["by"] = "tech-04",
                }),
        ]);
        var lowers = _product.Write("lowers.json", Encoding.UTF8.GetBytes(job.ToJsonString()));
        var works = _product.Write(
            "works.json",
            Fixtures.Changed("height-check", ("F-height-check", "F-elsewhere"))
        );

        var outcome = _product.Run("check", lowers, works);

        Manners.Hold(outcome);
        Assert.Contains(here, outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Contains(there, outcome.StandardOutput, StringComparison.Ordinal);
        Assert.DoesNotContain(
            "clear of it",
            _product.Run("check", works).StandardOutput,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Check_RecordBesideOneThatCannotBeRead_IsJudgedAllTheSame()
    {
        var broken = _product.Write("broken.json", "{"u8.ToArray());

        var outcome = _product.Run("check", broken, Fixtures.PathOf(Good));

        Assert.True(outcome.ExitCode == 2, outcome.ToString());
        Assert.Contains("may go out", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("broken.json", outcome.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_NoticeThatNamesNobody_SaysSoThoughTheDutyIsMet()
    {
        var job = JsonNode.Parse(Fixtures.Bytes("height-check"))!.AsObject();
        Assert.True(job["timeline"]![0]!.AsObject().Remove("others"));
        var record = _product.Write("record.json", Encoding.UTF8.GetBytes(job.ToJsonString()));

        var outcome = _product.Run("check", record);

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains(
            "note: The notice at 08:00 names nobody: who was told is not shown. (Affected people told)",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Check_SignedOffByTheUserOfTheMachine_SaysSoThoughItIsSignedOff()
    {
        var job = JsonNode.Parse(Fixtures.Bytes("height-check"))!.AsObject();
        job["people"]!.AsArray().Add(new JsonObject { ["id"] = "op-04", ["role"] = "officer" });
        job["signOff"]!["by"] = "op-04";
        var record = _product.Write("record.json", Encoding.UTF8.GetBytes(job.ToJsonString()));

        var outcome = _product.Run("check", record);

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains(
            "note: op-04 had no hands in by this record, and the register does not show them as authorised. (Signed off)",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
    }

    /// <summary>Hanging one's own lock is what puts a lock on the isolator.</summary>
    [Fact]
    public void Check_JobBeforeHandsGoIn_ListsOneActOnce()
    {
        var job = JsonNode.Parse(Fixtures.Bytes("height-check"))!.AsObject();
        Assert.True(job.Remove("signOff"));
        job["timeline"] = new JsonArray();

        var outcome = _product.Run(
            "check",
            _product.Write("open.json", Encoding.UTF8.GetBytes(job.ToJsonString()))
        );

        Assert.DoesNotContain("lock or tag put on", outcome.StandardOutput, StringComparison.Ordinal);
    }

    /// <summary>What the claim lacks stands first: it takes the place of all that follows.</summary>
    [Fact]
    public void Check_JobUnderAClaimThatNothingBearsOutYet_SaysWhatTheClaimLacks()
    {
        var job = JsonNode.Parse(Fixtures.Bytes("height-check"))!.AsObject();
        Assert.True(job.Remove("signOff"));
        job["setting"] = "in-use";
        job["handsInBladeZone"] = false;
        foreach (var unit in job["units"]!.AsArray())
        {
            unit!.AsObject().Remove("entries");
        }
        job["timeline"] = JsonNode.Parse(
            """
            [
              { "event": "exemption_claimed", "at": "2026-04-13T08:00:00+01:00", "by": "tech-02",
                "claim": { "kind": "minor-servicing", "routine": true, "repetitive": true, "integral": true } },
              { "event": "alternative_measures_recorded", "at": "2026-04-13T08:01:00+01:00", "by": "tech-02",
                "measures": ["engine-off"] }
            ]
            """
        );

        var outcome = _product.Run(
            "check",
            _product.Write("open.json", Encoding.UTF8.GetBytes(job.ToJsonString()))
        );

        Assert.Contains(
            "1. For the claim of minor servicing, instead of isolating and locking out: the machine shut down",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
    }

    /// <summary>A lock came off with hands in: before anything else they come out.</summary>
    [Fact]
    public void Check_JobWithHandsInAndSomethingLacking_SaysHandsOutFirst()
    {
        var job = JsonNode.Parse(Fixtures.Bytes("height-check"))!.AsObject();
        Assert.True(job.Remove("signOff"));
        var entries = job["timeline"]!.AsArray();
        var stop = entries.First(one => (string?)one!["event"] == "work_stopped");
        stop!["event"] = "lock_removed";
        var hung = entries.First(one => (string?)one!["event"] == "lock_applied")!;
        stop["source"] = hung["source"]!.DeepClone();
        stop["lock"] = hung["lock"]!.DeepClone();
        var open = _product.Write("open.json", Encoding.UTF8.GetBytes(job.ToJsonString()));

        var outcome = _product.Run("check", open);

        Manners.Hold(outcome);
        var lines = outcome.StandardOutput.Split('\n').Select(line => line.TrimEnd()).ToList();
        var heading = lines.FindIndex(line => line.StartsWith("Hands are in: ", StringComparison.Ordinal));
        Assert.True(heading > 0, outcome.StandardOutput);
        Assert.Equal("  1. Hands out now: tech-02.", lines[heading + 1]);
    }

    /// <summary>An open job with everything in place says that work may go on, and what may not begin yet.</summary>
    [Fact]
    public void Check_JobWithHandsInAndNothingMissing_SaysThatWorkMayGoOn()
    {
        var job = JsonNode.Parse(Fixtures.Bytes("height-check"))!.AsObject();
        Assert.True(job.Remove("signOff"));
        var entries = job["timeline"]!.AsArray();
        var stop = entries.First(one => (string?)one!["event"] == "work_stopped")!;
        var end = (string)stop["at"]!;
        foreach (
            var later in entries.Where(one => string.CompareOrdinal((string)one!["at"]!, end) >= 0).ToList()
        )
        {
            entries.Remove(later);
        }

        var open = _product.Write("open.json", Encoding.UTF8.GetBytes(job.ToJsonString()));

        var outcome = _product.Run("check", open);

        Manners.Hold(outcome);
        Assert.Contains(
            "Hands are in: nothing is missing so far, work may go on",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "not yet: the machine may not be started for use or handed back",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
    }

    /// <summary>A unit that is in on a job that is held stays: the line of the unit says so itself.</summary>
    [Theory]
    [InlineData(false, "): may go out")]
    [InlineData(true, "): may go out, by itself; the job is held, so it does not yet")]
    public void Check_UnitInOnAHeldJob_SaysThatItDoesNotGoOutYet(bool isHeld, string expected)
    {
        var job = JsonNode.Parse(Fixtures.Bytes("height-check"))!.AsObject();
        var entries = job["timeline"]!.AsArray();
        if (isHeld)
        {
            entries.Remove(entries.First(one => (string?)one!["event"] == "gloves_worn"));
        }

        var lines = _product
            .Run("check", _product.Write("held.json", Encoding.UTF8.GetBytes(job.ToJsonString())))
            .StandardOutput.Split('\n')
            .ToList();

        Assert.Equal(isHeld, lines.Exists(line => line.EndsWith(": HOLD", StringComparison.Ordinal)));
        var units = lines.Where(line => line.StartsWith("  unit ", StringComparison.Ordinal)).ToList();
        Assert.NotEmpty(units);
        Assert.All(units, line => Assert.EndsWith(expected, line, StringComparison.Ordinal));
    }

    [Fact]
    public void Check_JobOnWhichHandsHaveBeenIn_HasNoSuchList()
    {
        var job = JsonNode.Parse(Fixtures.Bytes("height-check"))!.AsObject();
        Assert.True(job.Remove("signOff"));
        var open = _product.Write("open.json", Encoding.UTF8.GetBytes(job.ToJsonString()));

        var outcome = _product.Run("check", open);

        Assert.DoesNotContain("Before hands go in:", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_RecordWithSeveralFaults_TellsEachWithPlaceValueAndWhatWouldDo()
    {
        var bytes = Fixtures.Changed(
            Good,
            ("\"date\": \"2026-04-13\"", "\"date\": \"13/04/2026\""),
            ("\"640.0 h\"", "\"640,0 h\""),
            ("\"role\": \"performs\"", "\"role\": \"performed\", \"rule\": 7")
        );
        var path = _product.Write("faulty.json", bytes);
        var text = Encoding.UTF8.GetString(bytes);

        var outcome = _product.Run("check", path);

        Manners.HoldForRefusal(outcome);
        foreach (
            var (pointer, found, stands) in new[]
            {
                ("/date", "13/04/2026", "\"13/04/2026\""),
                ("/machine/hours", "640,0 h", "\"640,0 h\""),
                ("/people/0/role", "performed", "\"performed\""),
                ("/people/0/rule", "rule", "\"rule\": 7"),
            }
        )
        {
            var before = text[..text.IndexOf(stands, StringComparison.Ordinal)];
            var line = before.Count(character => character == '\n') + 1;
            var column = before.Length - before.LastIndexOf('\n');
            var told = Assert.Single(
                outcome.Complaints,
                complaint =>
                    complaint.StartsWith(
                        FormattableString.Invariant($"{path}: line {line}, column {column} at {pointer}: "),
                        StringComparison.Ordinal
                    )
            );
            Assert.Contains($"`{found}`", told, StringComparison.Ordinal);
            Assert.Contains("; accepted: ", told, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Check_FaultOfTheProgramme_IsToldOnceUnderItsOwnHeading()
    {
        var job = _product.Write("job.json", Fixtures.Changed("height-check", ("\"L-21\"", "\"L-99\"")));

        var outcome = _product.Run("check", job, job);

        Manners.Hold(outcome);
        var said = outcome.StandardOutput.Split("The register does not have lock L-99, which was put on.");
        Assert.Equal(2, said.Length);
        Assert.Contains("Programme, told once", said[0], StringComparison.Ordinal);
        Assert.DoesNotContain("Programme, told once", said[1], StringComparison.Ordinal);
    }

    [Fact]
    public void Check_FormatJson_IsOneCanonicalAssessmentALine()
    {
        var outcome = _product.Run(
            "check",
            "--format",
            "json",
            Fixtures.PathOf(Good),
            Fixtures.PathOf("height-check")
        );

        Manners.Hold(outcome);
        var lines = outcome.StandardOutput.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(2, lines.Length);
        foreach (var line in lines)
        {
            var bytes = Encoding.UTF8.GetBytes(line);
            Assert.True(CanonicalJson.Canonicalise(bytes).TryGet(out var document, out _));
            Assert.Equal(bytes, document.Bytes.ToArray());
            Assert.True(
                AssessmentFormat.Current.Read(bytes).TryGet(out var read, out var problems),
                problems.ToString()
            );
            Assert.Equal(Disposition.Release, read.Job.Disposition);
        }
    }

    [Fact]
    public void Check_SeveralFiles_AnswersEachAndEndsWithTheWorst()
    {
        var missing = _product.At("missing.json");
        var faulty = _product.Write("faulty.json", "{}"u8.ToArray());

        var outcome = _product.Run("check", missing, faulty, _product.Folder, Fixtures.PathOf(Good));

        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 2, outcome.ToString());
        Assert.Contains($"`{missing}` cannot be read", outcome.StandardError, StringComparison.Ordinal);
        Assert.Contains($"{faulty}: line 1, column 1", outcome.StandardError, StringComparison.Ordinal);
        Assert.Contains($"`{_product.Folder}` is a folder", outcome.StandardError, StringComparison.Ordinal);
        Assert.Contains("F-full-service-125", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("check")]
    [InlineData("chek")]
    [InlineData("check", "--format", "xml", "a.json")]
    [InlineData("check", "a.json", "--rules", "no-such-folder")]
    [InlineData("report", "a.json")]
    public void CommandLine_MisspeltOrIncomplete_EndsWithTwoAndSaysWhy(params string[] arguments) =>
        Manners.HoldForRefusal(_product.Run(arguments));

    [SkippableFact]
    public void Check_FaultOfTheToolItself_EndsWithThreeAndOneLine()
    {
        // A device that is always full stands for everything that fails beneath the tool.
        const string full = "/dev/full";
        Skip.IfNot(File.Exists(full), $"this machine has no {full}");

        var outcome = _product.RunInto(full, "check", Fixtures.PathOf(Good));

        Assert.True(outcome.ExitCode == 3, outcome.ToString());
        Assert.Single(outcome.Complaints);
        Assert.True(Manners.IsFreeOfStackTraces(outcome), outcome.ToString());
    }

    [Fact]
    public void Check_OtherLanguageAndTimeZone_GivesTheSameBytes()
    {
        string[] arguments =
        [
            "check",
            "--format",
            "json",
            Fixtures.PathOf(Good),
            Fixtures.PathOf("grind-125"),
            Fixtures.PathOf("height-check-by-two"),
        ];
        var here = _product.Run(arguments);

        // Each may go out; given together, they tell of one person at two machines at one time.
        Assert.True(here.ExitCode == 1, here.ToString());
        Assert.Contains("had hands in BENCH-1", here.StandardOutput, StringComparison.Ordinal);
        Assert.All(
            Elsewhere,
            place =>
            {
                using var elsewhere = new Product();
                elsewhere.With("LC_ALL", place.Language).With("LANG", place.Language).With("TZ", place.Zone);

                var there = elsewhere.Run(arguments);

                Assert.Equal(here.StandardOutput, there.StandardOutput);
                Assert.Equal(here.ExitCode, there.ExitCode);
            }
        );
    }

    /// <summary>Another dotless i, other digits and calendar, a decimal comma; a day ahead, a day behind, odd minutes.</summary>
    private static readonly (string Language, string Zone)[] Elsewhere =
    [
        ("tr_TR.UTF-8", "Pacific/Kiritimati"),
        ("ar_SA.UTF-8", "Pacific/Pago_Pago"),
        ("de_DE.UTF-8", "Asia/Kathmandu"),
    ];
}
