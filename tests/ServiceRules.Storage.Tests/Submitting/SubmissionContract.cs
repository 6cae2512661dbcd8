using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Submitting;
using ServiceRules.Evidence;

namespace ServiceRules.Storage.Tests.Submitting;

/// <summary>What every database must do for a service, whichever it is.</summary>
public abstract class SubmissionContract : DrawerContract
{
    private protected SubmissionContract(Func<Drawer> drawer)
        : base(drawer) { }

    [SkippableFact]
    public async Task Submit_NewRecord_StandsAfterReopeningWithRowsAndAnswer()
    {
        SubmissionOutcome.Stored stored;
        await using (var counter = new Counter(Drawer))
        {
            stored = Assert.IsType<SubmissionOutcome.Stored>(
                await counter.SubmitAsync(Jobs.Job("J-1"), "one")
            );
        }

        await using var again = new Counter(Drawer);
        var replay = Assert.IsType<SubmissionOutcome.Stored>(await again.SubmitAsync(Jobs.Job("J-1"), "one"));
        var row = Assert.Single(again.Rows.Records(new RecordFilter(), new RowPaging()).Rows);

        Assert.True(replay.Submission.IsReplay);
        Assert.Equal(
            stored.Submission.AssessmentBytes!.Value.ToArray(),
            replay.Submission.AssessmentBytes!.Value.ToArray()
        );
        Assert.Equal(stored.Submission.Record.Index, row.Index);
        Assert.Equal(stored.Submission.Record.Entry.At, row.FiledAt);
        Assert.Equal(stored.Submission.Record.Entry.By, row.By);
        Assert.True(row.IsNewest);
        Assert.Equal(again.Ledger.Head!.Size, again.Rows.Covered);
        Assert.Empty(Drawer.Verify().Faults);
    }

    [SkippableFact]
    public async Task Submit_EachKindOfAnswer_IsTheSameOnEveryDatabase()
    {
        await using var counter = new Counter(Drawer);
        var correction = new Correction("lead-01", "read the wrong line");

        Assert.IsType<SubmissionOutcome.Stored>(await counter.SubmitAsync(Jobs.Job("J-1", Jobs.LeaveOpen)));
        Assert.IsType<SubmissionOutcome.Progressed>(await counter.SubmitAsync(Jobs.Job("J-1"), "a"));
        Assert.IsType<SubmissionOutcome.Stood>(await counter.SubmitAsync(Jobs.Job("J-1")));
        Assert.IsType<SubmissionOutcome.OtherBody>(await counter.SubmitAsync(Jobs.Job("J-2"), "a"));
        Assert.IsType<SubmissionOutcome.Conflict>(await counter.SubmitAsync(Jobs.Job("J-1", Jobs.Mend), "b"));
        Assert.IsType<SubmissionOutcome.Amended>(
            await counter.SubmitAsync(Jobs.Job("J-1", Jobs.Mend), "b", correction)
        );
        Assert.IsType<SubmissionOutcome.Declined>(
            await counter.SubmitAsync(Jobs.Job("J-2"), "c", correction)
        );

        Assert.Equal(
            [("open", false, false), ("signed-off", false, false), ("signed-off", true, true)],
            counter.Rows.Versions("J-1").Select(row => (row.State, row.IsAmendment, row.IsNewest))
        );
        Assert.Empty(Drawer.Verify().Faults);
    }

    [SkippableFact]
    public async Task Submit_FiftyAtOnceTheSame_MakeOneRecord()
    {
        await using var counter = new Counter(Drawer);
        var job = Jobs.Job("J-1");

        var outcomes = await Task.WhenAll(
            Enumerable.Range(0, 50).Select(_ => Task.Run(() => counter.SubmitAsync(job, "one")))
        );

        Assert.Single(
            outcomes,
            outcome => outcome is SubmissionOutcome.Stored { Submission.IsReplay: false }
        );
        Assert.All(outcomes, outcome => Assert.IsType<SubmissionOutcome.Stored>(outcome));
        Assert.Equal(3, counter.Ledger.Head!.Size);
        Assert.Single(counter.Rows.Versions("J-1"));
    }

    [SkippableFact]
    public async Task Submit_ManyAtOnce_ShareCheckpointsAndLoseNothing()
    {
        await using var counter = new Counter(Drawer);

        var outcomes = await Task.WhenAll(
            Enumerable.Range(0, 60).Select(at => Task.Run(() => counter.SubmitAsync(Jobs.Job($"J-{at}"))))
        );

        Assert.All(outcomes, outcome => Assert.IsType<SubmissionOutcome.Stored>(outcome));
        Assert.InRange(counter.Store.Checkpoints().Count(), 1, 50);
        Assert.Equal(60, counter.All().Records.Count);
        Assert.Equal(121, Drawer.Verify().Size);
        Assert.Empty(Drawer.Verify().Faults);
    }

    [SkippableFact]
    public async Task Submit_TwoInstancesAtOnce_MakeOneLogAndNothingTwice()
    {
        await using var one = new Counter(Drawer);
        await using var other = new Counter(Drawer);

        var outcomes = await Task.WhenAll(
            Enumerable
                .Range(0, 60)
                .Select(at =>
                    Task.Run(() =>
                        (at % 2 == 0 ? one : other).SubmitAsync(Jobs.Job($"J-{at / 3}"), $"key-{at / 3}")
                    )
                )
        );

        Assert.All(outcomes, outcome => Assert.IsType<SubmissionOutcome.Stored>(outcome));
        Assert.Equal(
            20,
            outcomes.Cast<SubmissionOutcome.Stored>().Count(outcome => !outcome.Submission.IsReplay)
        );
        var verified = Drawer.Verify();
        Assert.Empty(verified.Faults);
        Assert.Equal(41, verified.Size);
        Assert.Equal(20, one.All().Records.Count);
        Assert.Equal(41, one.Rows.Covered);
    }

    [SkippableFact]
    public async Task Rows_MadeAnewFromTheLog_AreTheSame()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1", Jobs.LeaveOpen));
        await counter.SubmitAsync(Jobs.Job("J-1"));
        await counter.SubmitAsync(Jobs.Job("J-2"));
        await counter.SubmitAsync(
            Jobs.Job("J-2", Jobs.Mend),
            null,
            new Correction("lead-01", "read the wrong line")
        );
        await counter.SubmitAsync(Jobs.Job("J-2"), null, new Correction("lead-01", "it was right"));
        var before = counter.All();
        Assert.Equal(5, before.Records.Count);
        Assert.NotEmpty(before.Findings);

        var entries = new FollowLog(counter.Ledger).Rebuild();

        Assert.Equal(counter.Ledger.Head!.Size, entries);
        AssertSame(before, counter.All());
        Assert.Equal(0, new FollowLog(counter.Ledger).BringUp());
    }

    [SkippableFact]
    public async Task Rows_OfAPersonWhoIsForgotten_GoWithTheContentsAndComeToTheSameAnew()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        await counter.SubmitAsync(
            Jobs.Job(
                "J-2",
                job =>
                {
                    var text = job.ToJsonString().Replace("tech-02", "tech-01", StringComparison.Ordinal);
                    var other = System.Text.Json.Nodes.JsonNode.Parse(text)!.AsObject();
                    foreach (var name in job.Select(member => member.Key).ToList())
                    {
                        job[name] = other[name]?.DeepClone();
                    }
                }
            )
        );
        Assert.Equal(2, counter.All().Records.Count);

        Assert.IsType<FilingOutcome.Filed>(
            new ForgetPerson(counter.Ledger).Forget(
                "tech-02",
                new Correction("officer-01", "asked for it"),
                true
            )
        );

        var left = counter.All();
        Assert.Equal(["J-2"], left.Records.Select(row => row.Record));
        Assert.NotNull(left.Records[0].Site);
        new FollowLog(counter.Ledger).Rebuild();
        AssertSame(left, counter.All());
        Assert.Empty(Drawer.Verify().Faults);
    }

    [SkippableFact]
    public async Task Rows_AskedForInPages_ComeOnceEachInTheOrderOfTheLog()
    {
        await using var counter = new Counter(Drawer);
        for (var at = 0; at < 5; at++)
        {
            await counter.SubmitAsync(Jobs.Job($"J-{at}"));
        }

        var whole = counter.All(RowPaging.MostRows);
        Assert.Equal(["J-4", "J-3", "J-2", "J-1", "J-0"], whole.Records.Select(row => row.Record));
        foreach (var page in new[] { 1, 2, 3, 7 })
        {
            AssertSame(whole, counter.All(page));
        }

        var upwards = counter.All(3, oldestFirst: true);
        Assert.Equal(whole.Records.AsEnumerable().Reverse(), upwards.Records);
        Assert.Equal(
            whole.Findings.OrderBy(row => row.Of.Index).ThenBy(row => row.Ordinal),
            upwards.Findings
        );
    }

    [SkippableFact]
    public async Task Rows_AskedForWithEachFilter_AreThoseThatAPlainSearchFinds()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1", Jobs.LeaveOpen));
        await counter.SubmitAsync(Jobs.Job("J-1"));
        await counter.SubmitAsync(
            Jobs.Job("J-2", job => job["units"]![0]!["entries"]![0]!["value"] = "9 mm")
        );
        await counter.SubmitAsync(Jobs.Job("J-3", job => job["machine"]!["id"] = "M-77"));
        var (records, units, findings) = counter.All();
        var (first, far) = (records[0], new DateOnly(1999, 1, 1));
        var unit = units[0].Unit;

        foreach (
            var (filter, isMeant) in new (RecordFilter, Func<RecordRow, bool>)[]
            {
                (new() { AllVersions = true }, _ => true),
                (new(), row => row.IsNewest),
                (new() { Site = first.Site }, row => row.IsNewest && row.Site == first.Site),
                (new() { Site = "another" }, _ => false),
                (new() { Machine = "M-77" }, row => row.Machine == "M-77"),
                (new() { State = "open", AllVersions = true }, row => row.State == "open"),
                (new() { Disposition = "hold" }, row => row.IsNewest && row.Disposition == "hold"),
                (
                    new() { Unit = unit },
                    row => row.IsNewest && units.Exists(one => one.Of == row && one.Unit == unit)
                ),
                (new() { From = first.Day, Until = first.Day }, row => row.IsNewest && row.Day == first.Day),
                (new() { Until = far }, _ => false),
                (new() { MachineOfAnyCase = "m-77" }, row => row.Machine == "M-77"),
                (
                    new() { UnitOfAnyCase = unit.ToLowerInvariant() },
                    row => row.IsNewest && units.Exists(one => one.Of == row && one.Unit == unit)
                ),
                (new() { Containing = "j-2" }, row => row.IsNewest && row.Record == "J-2"),
                (new() { Containing = "-" }, row => row.IsNewest),
                (new() { Containing = "_" }, _ => false),
                (new() { Containing = "%!'" }, _ => false),
            }
        )
        {
            Assert.Equal(
                records.Where(isMeant),
                counter.Rows.Records(filter, new RowPaging { Most = 100 }).Rows
            );
        }

        foreach (
            var (filter, isMeant) in new (FindingFilter, Func<FindingRow, bool>)[]
            {
                (new() { Verdict = "not-met" }, row => row.Of.IsNewest && row.Verdict == "not-met"),
                (new() { Unit = unit }, row => row.Of.IsNewest && row.Unit == unit),
                (
                    new() { Severity = "stop", Effect = "none" },
                    row => row.Of.IsNewest && row is { Severity: "stop", Effect: "none" }
                ),
                (
                    new()
                    {
                        Rule = findings[0].Rule,
                        Of = new() { Machine = "M-77" },
                    },
                    row => row.Of.Machine == "M-77" && row.Rule == findings[0].Rule
                ),
            }
        )
        {
            var expected = findings.Where(isMeant).ToList();
            Assert.NotEmpty(expected);
            Assert.Equal(expected, counter.Rows.Findings(filter, new RowPaging { Most = 1000 }).Rows);
        }

        var latest = counter
            .Rows.Units(new UnitFilter { LatestOnly = true }, new RowPaging { Most = 1000 })
            .Rows;
        Assert.Equal(
            units
                .Where(row => row.Of.IsNewest)
                .Select(row => row.Unit)
                .Distinct()
                .Order(StringComparer.Ordinal),
            latest.Select(row => row.Unit).Order(StringComparer.Ordinal)
        );
    }

    [SkippableFact]
    public async Task Submit_StartOverTheHandsOfAStoredJob_JudgesItAgainInTheSameFiling()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        Assert.Equal("release", Assert.Single(counter.Rows.Versions("J-1")).Disposition);

        var start = Assert.IsType<SubmissionOutcome.Stored>(await counter.SubmitAsync(Jobs.Start(), "one"));
        var again = Assert.IsType<SubmissionOutcome.Stored>(await counter.SubmitAsync(Jobs.Start(), "one"));

        Assert.Equal("J-1", Assert.Single(start.Submission.Turned).Entry.Entry.Subject);
        Assert.Equal(
            start.Submission.Turned[0].Entry.Index,
            Assert.Single(again.Submission.Turned).Entry.Index
        );
        var row = Assert.Single(counter.Rows.Versions("J-1"));
        Assert.Equal(
            ("stop", start.Submission.Turned[0].Entry.Index),
            (row.Disposition, row.AssessmentIndex)
        );
        Assert.Equal(
            1,
            counter.Store.Checkpoints().Count(note => note.Contains("\n6\n", StringComparison.Ordinal))
        );
        Assert.Empty(Drawer.Verify().Faults);
        var before = counter.All();
        new FollowLog(counter.Ledger).Rebuild();
        AssertSame(before, counter.All());
    }

    [SkippableFact]
    public async Task Shown_AskedFor_AreTheNewestVersionsThatShowIt()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1", Jobs.LeaveOpen));
        await counter.SubmitAsync(Jobs.Job("J-1"));
        await counter.SubmitAsync(Jobs.Job("J-2", job => job["machine"]!["id"] = "M-77"));
        await counter.SubmitAsync(Jobs.Job("J-3"));
        await counter.SubmitAsync(Jobs.Start());
        var site = counter.All().Records[0].Site!;
        var second = new DateOnly(2026, 4, 14);

        foreach (var _ in Enumerable.Range(0, 2))
        {
            Assert.Equal(["J-3", "J-start", "J-1"], Shown(new(ShownKind.Machine, ["M-02"]) { Site = site }));
            Assert.Equal(["J-3", "J-2", "J-1"], Shown(new(ShownKind.Lock, ["L-21"]) { Site = site }));
            Assert.Equal(
                ["J-1", "J-2", "J-3"],
                Shown(new(ShownKind.Lock, ["L-21", "none"]) { Site = site, EarliestFirst = true })
            );
            Assert.Equal(
                ["J-3", "J-2", "J-start", "J-1"],
                Shown(new(ShownKind.Person, ["tech-02", "tech-04"]) { Site = site })
            );
            Assert.Equal(
                ["J-2"],
                Shown(
                    new(ShownKind.Lock, ["L-21"])
                    {
                        Site = site,
                        From = second,
                        Until = second,
                    }
                )
            );
            Assert.Equal(["J-3"], Shown(new(ShownKind.Lock, ["L-21"]) { Site = site, Most = 1 }));
            Assert.Empty(Shown(new(ShownKind.Lock, ["L-21"]) { Site = "another" }));
            Assert.Empty(Shown(new(ShownKind.Defect, ["M-02"]) { Site = site }));
            Assert.Empty(Shown(new(ShownKind.Lock, []) { Site = site }));
            new FollowLog(counter.Ledger).Rebuild();
        }

        // Whoever is forgotten with the contents stands in no row any more.
        new ForgetPerson(counter.Ledger).Forget(
            "tech-02",
            new Correction("officer-01", "asked for it"),
            true
        );
        Assert.Empty(Shown(new(ShownKind.Person, ["tech-02"]) { Site = site }));
        Assert.Empty(Shown(new(ShownKind.Lock, ["L-21"]) { Site = site }));

        IEnumerable<string> Shown(ShownFilter filter) => counter.Rows.Shown(filter).Select(row => row.Record);
    }

    [SkippableFact]
    public async Task Rows_AskedForWhileOthersFile_AreNeverHalfOfAFiling()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-0"));
        var units = counter.All().Units.Count;
        var filing = Task.Run(async () =>
        {
            for (var at = 1; at <= 20; at++)
            {
                Assert.IsType<SubmissionOutcome.Stored>(await counter.SubmitAsync(Jobs.Job($"J-{at}")));
            }
        });

        var asked = 0;
        for (; !filing.IsCompleted; asked++)
        {
            var rows = counter.Rows.Units(new UnitFilter(), new RowPaging { Most = 1000 }).Rows;
            Assert.Equal(0, rows.Length % units);
            var head = counter.Ledger.Head!;
            Assert.NotEmpty(counter.Ledger.Prove(head.Size - 1));
        }

        await filing;
        Assert.NotEqual(0, asked);
    }

    [SkippableFact]
    public void Write_WorkThatThrows_LeavesNothing()
    {
        using var folder = Drawer.Open();
        var hash = ContentHash.Of("content"u8);

        Assert.Throws<InvalidOperationException>(() =>
            folder.Store.Write<bool>(writing =>
            {
                writing.Keep(hash, "content"u8.ToArray());
                _ = writing.PseudonymFor("tech-01");
                writing.Rows.Cover(5);
                throw new InvalidOperationException("stop");
            })
        );

        Assert.Null(folder.Store.Content(hash));
        Assert.Null(folder.Store.PseudonymOf("tech-01"));
        Assert.Equal(0, folder.Store.Rows.Covered);
    }

    [SkippableFact]
    public void Within_PartThatTheDatabaseRefuses_IsUndoneAlone()
    {
        using var folder = Drawer.Open();
        var (kept, undone) = (ContentHash.Of("kept"u8), ContentHash.Of("undone"u8));

        folder.Store.Write(writing =>
        {
            writing.Keep(kept, "kept"u8.ToArray());
            var refused = Assert.Throws<LedgerStoreException>(() =>
                writing.Within(() =>
                {
                    writing.Keep(undone, "undone"u8.ToArray());
                    writing.Append(new StoredEntry(-1, "{}"u8.ToArray()));
                    return true;
                })
            );
            Assert.False(refused.EndsTransaction);
            return true;
        });

        Assert.NotNull(folder.Store.Content(kept));
        Assert.Null(folder.Store.Content(undone));
    }

    private static void AssertSame(
        (List<RecordRow> Records, List<UnitRow> Units, List<FindingRow> Findings) expected,
        (List<RecordRow> Records, List<UnitRow> Units, List<FindingRow> Findings) actual
    )
    {
        Assert.NotEmpty(expected.Records);
        Assert.Equal(expected.Records, actual.Records);
        Assert.Equal(expected.Units, actual.Units);
        Assert.Equal(expected.Findings, actual.Findings);
    }
}
