using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;

namespace ServiceRules.Engine.Tests.SafeWork;

/// <summary>Registers with one thing wrong.</summary>
internal static class SiteMutation
{
    private static readonly DateOnly Stale = new(2024, 3, 1);

    public static AssessmentContext Of(AssessmentContext context, Random random) =>
        random.Next(10) switch
        {
            <= 2 => People(context, random),
            <= 4 => Locks(context, random),
            <= 7 => context.Procedures.IsEmpty ? context : Procedure(context, random),
            8 => Around(context, random),
            _ => Machine(context, random),
        };

    private static AssessmentContext People(AssessmentContext context, Random random)
    {
        int at = random.Next(context.People.Length);
        var person = context.People[at];
        return context with
        {
            People = random.Next(9) switch
            {
                0 => context.People.RemoveAt(at),
                1 => context.People.SetItem(at, Untrained(person, false, person.TrainedOn)),
                2 => context.People.SetItem(at, Untrained(person, person.Authorised, null)),
                3 => context.People.SetItem(at, Untrained(person, person.Authorised, Stale)),
                4 => context.People.SetItem(at, person with { InstructedOn = null }),
                5 => context.People.SetItem(at, person with { TagLimitsOn = null }),
                6 => context.People.SetItem(
                    at,
                    person with
                    {
                        Covers = [.. person.Covers.Skip(1)],
                        StatesCovers = random.Next(3) > 0,
                    }
                ),
                7 => context.People.SetItem(at, person with { Employer = Employer.Outside }),
                _ => context.People.SetItem(at, person with { Crew = random.Next(2) == 0 ? null : "other" }),
            },
        };
    }

    private static RegisteredPerson Untrained(RegisteredPerson person, bool authorised, DateOnly? on) =>
        new(person.Id, authorised, on, null)
        {
            Employer = person.Employer,
            Crew = person.Crew,
            Covers = person.Covers,
            StatesCovers = person.StatesCovers,
            TagLimitsOn = person.TagLimitsOn,
            InstructedOn = person.InstructedOn,
        };

    private static AssessmentContext Locks(AssessmentContext context, Random random)
    {
        int at = random.Next(context.Locks.Length);
        var held = context.Locks[at];
        return context with
        {
            LockStyle = random.Next(8) == 0 ? "blue" : context.LockStyle,
            Locks = random.Next(6) switch
            {
                0 => context.Locks.RemoveAt(at),
                1 => context.Locks.SetItem(at, held with { Use = "tool cabinet" }),
                2 => context.Locks.SetItem(at, held with { Style = random.Next(2) == 0 ? null : "brass" }),
                3 => [.. context.Locks.Select(l => l with { Legend = null })],
                4 => context.Locks.SetItem(
                    at,
                    new RegisteredLock(held.Id, null)
                    {
                        Style = held.Style,
                        IsTag = held.IsTag,
                        Legend = held.Legend,
                    }
                ),
                _ => [.. context.Locks.Select(l => l with { Style = "brass" })],
            },
        };
    }

    private static AssessmentContext Procedure(AssessmentContext context, Random random)
    {
        var written = context.Procedures[0];
        var inspection = written.Inspection;
        Procedure? changed = random.Next(12) switch
        {
            0 => null,
            1 => written with { Until = new(2025, 2, 1) },
            2 => written with { Sources = [.. written.Sources.Skip(1)] },
            3 => written with { From = new(2025, 4, 1) },
            4 => written with { Inspection = null },
            5 => written with { Inspection = inspection is null ? null : inspection with { On = Stale } },
            6 => written with
            {
                Inspection = inspection is null
                    ? null
                    : inspection with
                    {
                        Inspector = new Id<Participant>("tech-1"),
                    },
            },
            7 => written with { Inspection = inspection is null ? null : inspection with { People = [] } },
            8 => written with { Inspection = inspection is null ? null : inspection with { Machine = null } },
            9 => written with
            {
                Inspection = inspection is null
                    ? null
                    : inspection with
                    {
                        Findings =
                        [
                            new(
                                "F-1",
                                random.Next(2) == 0 ? new Id<Participant>("tech-1") : null,
                                new(2025, 1, 20),
                                null,
                                random.Next(2) == 0 ? new DateOnly(2025, 2, 1) : null
                            ),
                        ],
                    },
            },
            10 => written with
            {
                Inspection = inspection is null
                    ? null
                    : inspection with
                    {
                        People = [.. inspection.People.Skip(1)],
                    },
            },
            _ => written with { ControlStepsChanged = !written.ControlStepsChanged },
        };
        return context with { Procedures = changed is null ? [] : [changed] };
    }

    private static AssessmentContext Around(AssessmentContext context, Random random) =>
        random.Next(4) switch
        {
            0 => context with { RemovalException = null },
            1 => context with
            {
                Elsewhere =
                [
                    new LockElsewhere(
                        context.Locks[random.Next(context.Locks.Length)].Id,
                        new("M-99"),
                        TimelinePen.Parse("2025-06-03T10:00:00Z"),
                        TimelinePen.Parse("2025-06-04T10:00:00Z")
                    ),
                ],
            },
            2 => context with
            {
                Elsewhere =
                [
                    new PersonElsewhere(
                        new("tech-1"),
                        new("M-99"),
                        TimelinePen.Parse("2025-06-03T10:00:00Z"),
                        TimelinePen.Parse("2025-06-04T10:00:00Z")
                    ),
                ],
            },
            _ => context with
            {
                Attendance =
                [
                    new(
                        new("tech-1"),
                        TimelinePen.Parse("2025-06-03T12:00:00Z"),
                        TimelinePen.Parse("2025-06-03T20:00:00Z")
                    ),
                ],
            },
        };

    private static AssessmentContext Machine(AssessmentContext context, Random random) =>
        random.Next(2) == 0 || context.Machines.IsEmpty
            ? context with
            {
                Machines = [],
            }
            : context with
            {
                Machines =
                [
                    context.Machines[0] with
                    {
                        Sources =
                        [
                            .. context.Machines[0].Sources,
                            new EnergySource
                            {
                                Id = new("latch"),
                                Title = "latch spring",
                                Stored = true,
                                Release = "as the procedure says",
                                Proof = "tried",
                            },
                        ],
                    },
                ],
            };
}
