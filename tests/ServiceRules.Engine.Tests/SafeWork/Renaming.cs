using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;

namespace ServiceRules.Engine.Tests.SafeWork;

/// <summary>Every person and every lock under another name, in the record and in the registers alike.</summary>
internal static class Renaming
{
    public static ServiceRecord Of(ServiceRecord record, int shift) =>
        record with
        {
            People = [.. record.People.Select(p => p with { Id = Of(p.Id, shift) })],
            Timeline =
            [
                .. record.Timeline.Select(e =>
                    e with
                    {
                        Actor = Of(e.Actor, shift),
                        Lock = e.Lock is { } held ? Of(held, shift) : null,
                        Others = [.. e.Others.Select(o => Of(o, shift))],
                    }
                ),
            ],
            SignOff = record.SignOff is { } signed ? signed with { By = Of(signed.By, shift) } : null,
        };

    public static AssessmentContext Of(AssessmentContext context, int shift) =>
        context with
        {
            People = [.. context.People.Select(p => p with { Id = Of(p.Id, shift) })],
            Locks =
            [
                .. context.Locks.Select(l =>
                    l with
                    {
                        Id = Of(l.Id, shift),
                        Owner = l.Owner is { } owner ? Of(owner, shift) : null,
                    }
                ),
            ],
            RemovalException = context.RemovalException is { } removal
                ? removal with
                {
                    Trained = Of(removal.Trained, shift),
                }
                : null,
            Procedures =
            [
                .. context.Procedures.Select(p =>
                    p with
                    {
                        Inspection = p.Inspection is { } inspection ? Of(inspection, shift) : null,
                    }
                ),
            ],
            Attendance = [.. context.Attendance.Select(a => a with { Person = Of(a.Person, shift) })],
            Elsewhere =
            [
                .. context.Elsewhere.Select<Elsewhere, Elsewhere>(e =>
                    e switch
                    {
                        LockElsewhere held => held with { Lock = Of(held.Lock, shift) },
                        PersonElsewhere person => person with { Person = Of(person.Person, shift) },
                        _ => e,
                    }
                ),
            ],
        };

    private static ProcedureInspection Of(ProcedureInspection inspection, int shift) =>
        inspection with
        {
            Inspector = inspection.Inspector is { } inspector ? Of(inspector, shift) : null,
            People = Of(inspection.People, shift),
            Users = Of(inspection.Users, shift),
            Findings =
            [
                .. inspection.Findings.Select(f =>
                    f with
                    {
                        About = f.About is { } about ? Of(about, shift) : null,
                    }
                ),
            ],
        };

    private static ImmutableArray<Id<Participant>> Of(ImmutableArray<Id<Participant>> people, int shift) =>
        [.. people.Select(p => Of(p, shift))];

    private static Id<T> Of<T>(Id<T> name, int shift) => new(Of(name.Text, shift));

    /// <summary>Other letters and the digits mirrored, so that names sort another way too.</summary>
    private static string Of(string name, int shift) =>
        string.Concat(
            name.Select(letter =>
                char.IsAsciiLetterLower(letter) ? (char)('a' + ((letter - 'a' + shift) % 26))
                : char.IsAsciiDigit(letter) ? (char)('9' - (letter - '0'))
                : letter
            )
        );
}
