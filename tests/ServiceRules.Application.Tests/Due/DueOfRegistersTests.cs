using ServiceRules.Application.Due;
using ServiceRules.Application.Library;
using ServiceRules.Application.Tests.Filed;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Tests.Due;

public sealed class DueOfRegistersTests
{
    private static readonly DateOnly Today = new(2027, 1, 20);

    private static RuleBook Book => RecordFiles.Rules.Book;

    private static Procedure Written =>
        RecordFiles.Rules.Site!.Procedures.Single(one => one.Id.Text == "P-ride-on-2");

    [Fact]
    public void Training_OfWhoIsAuthorisedAndThere_IsDueOnItsLastDay()
    {
        var told = Of(
            Site() with
            {
                People =
                [
                    Person("tech-01"),
                    Person("left", left: Today.AddDays(-1)),
                    Person("leaves-today", left: Today),
                    Person("operator") with
                    {
                        Authorised = false,
                    },
                    Person("no-end") with
                    {
                        TrainedUntil = null,
                    },
                ],
            }
        );

        Assert.Equal(["tech-01", "leaves-today"], told.Select(thing => thing.Subject));
        Assert.All(told, thing => Assert.Equal(DueKind.Training, thing.Kind));
        Assert.All(told, thing => Assert.Equal(new DateOnly(2027, 1, 31), thing.Due));
        Assert.All(told, thing => Assert.Equal(thing.Subject, thing.Person));
        Assert.Equal(11, told[0].DaysLeft(Today));
        Assert.False(told[0].IsOverdue(new(2027, 1, 31)));
        Assert.True(told[0].IsOverdue(new(2027, 2, 1)));
        Assert.True(told[0].IsWithin(Today, 11));
        Assert.False(told[0].IsWithin(Today, 10));
        Assert.True(told[0].IsWithin(new(2028, 1, 1), 0));
    }

    [Theory]
    [InlineData("2026-02-10", "2027-06-01", "2027-02-10", DueSource.Rules)]
    [InlineData("2026-02-10", "2026-12-01", "2026-12-01", DueSource.Register)]
    [InlineData("2026-02-10", "2027-02-10", "2027-02-10", DueSource.Register)]
    [InlineData("2024-02-29", null, "2025-02-28", DueSource.Rules)]
    [InlineData(null, "2027-06-01", "2027-06-01", DueSource.Register)]
    public void Inspection_WhereTheRulesAskForOneAYear_IsDueByTheEarlierDay(
        string? last,
        string? said,
        string due,
        DueSource source
    )
    {
        var told = Assert.Single(Of(With(Inspected(last, said))));

        Assert.Equal((DueKind.Inspection, "P-ride-on-2"), (told.Kind, told.Subject));
        Assert.Equal((DateOnly.Parse(due, null), source), (told.Due, told.Source));
        Assert.Null(told.Person);
    }

    [Fact]
    public void Inspection_WhereNeitherRulesNorRegisterAskForOne_IsNotInvented()
    {
        Assert.Empty(Of(With(Inspected(null, null))));
        Assert.Empty(Of(With(Inspected("2026-02-10", null)), Without(Book)));
        Assert.Equal(
            new DateOnly(2027, 6, 1),
            Assert.Single(Of(With(Inspected("2026-02-10", "2027-06-01")), Without(Book))).Due
        );
    }

    [Fact]
    public void Inspection_OfAProcedureThatIsNotInForce_IsNotDue()
    {
        var written = Inspected("2026-02-10", null);

        Assert.Empty(Of(With(written with { Until = Today.AddDays(-1) })));
        Assert.Empty(Of(With(written with { From = Today.AddDays(1) })));
        Assert.Single(Of(With(written with { From = Today, Until = Today })));
    }

    [Fact]
    public void Finding_OfAnInspection_IsDueWhileItIsOpenAndHasADay()
    {
        var day = new DateOnly(2027, 3, 1);
        var told = Of(
            With(
                Inspected("2026-02-10", null) with
                {
                    Inspection = new(
                        new(2026, 2, 10),
                        null,
                        null,
                        [],
                        [],
                        false,
                        [
                            new("F-1", null, new(2026, 2, 10), day, null),
                            new("F-2", new("tech-01"), new(2026, 2, 10), day, null),
                            new("F-3", null, new(2026, 2, 10), day, Today),
                            new("F-4", null, new(2026, 2, 10), null, null),
                        ]
                    ),
                }
            )
        );

        Assert.Equal(
            [("F-1", null, day), ("F-2", "tech-01", day)],
            told.Where(thing => thing.Kind is DueKind.InspectionFinding)
                .Select(thing => (thing.About, thing.Person, thing.Due))
        );
    }

    [Fact]
    public void Registers_OfTheShippedSite_SayWhatStandsInThem()
    {
        var told = DueOfRegisters.Of(RecordFiles.Rules.Site!, Book, Today);

        Assert.Equal(
            new DateOnly(2027, 2, 10),
            Assert.Single(told, thing => thing.Subject == "P-ride-on-2").Due
        );
    }

    private static SiteRegisters Site() =>
        new() { Name = "Birch Hollow", Zone = RecordFiles.Rules.Site!.Zone };

    private static SiteRegisters With(Procedure procedure) => Site() with { Procedures = [procedure] };

    private static List<DueThing> Of(SiteRegisters site, RuleBook? book = null) =>
        [.. DueOfRegisters.Of(site, book ?? Book, Today)];

    private static Procedure Inspected(string? last, string? due) =>
        Written with
        {
            From = null,
            Until = null,
            Inspection = null,
            InspectedOn = last is null ? null : DateOnly.Parse(last, null),
            InspectionDue = due is null ? null : DateOnly.Parse(due, null),
        };

    private static RegisteredPerson Person(string id, DateOnly? left = null) =>
        new(new(id), true, new(2025, 1, 20), new(2027, 1, 31)) { Left = left };

    private static RuleBook Without(RuleBook book) =>
        book with
        {
            Packs =
            [
                .. book.Packs.Select(pack =>
                    pack with
                    {
                        Rules =
                        [
                            .. pack.Rules.Where(rule =>
                                rule.Check is not Check.EnergyControl { Of: EnergyDuty.ProcedureInspected }
                            ),
                        ],
                    }
                ),
            ],
        };
}
