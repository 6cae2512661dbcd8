using System.Collections.Immutable;
using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Site;

/// <summary>A person in the site's register.</summary>
/// <param name="Id">Pseudonymous identity.</param>
/// <param name="Authorised">May lock out and work on machines.</param>
/// <param name="TrainedOn">Date of the training that the authorisation rests on.</param>
/// <param name="TrainedUntil">Until when it holds; absent: no end stated.</param>
/// <param name="MayRelease">May let out, with a reason, what others did: by a second person's release or a waiver.</param>
public sealed record RegisteredPerson(
    Id<Participant> Id,
    bool Authorised,
    DateOnly? TrainedOn,
    DateOnly? TrainedUntil,
    bool MayRelease = false
)
{
    /// <summary>For whom the person works.</summary>
    public Employer Employer { get; init; } = Employer.Site;

    /// <summary>The crew that the person belongs to, where the register tells crews apart.</summary>
    public string? Crew { get; init; }

    /// <summary>The sources that the training covers; see <see cref="StatesCovers"/>.</summary>
    public ImmutableArray<Id<EnergySource>> Covers { get; init; } = [];

    /// <summary>Whether the register says which sources the training covers; what it does not say it does not deny.</summary>
    public bool StatesCovers { get; init; }

    /// <summary>When the person was taught what a tag can and cannot do.</summary>
    public DateOnly? TagLimitsOn { get; init; }

    /// <summary>When an affected person was told what lockout is and to leave it alone.</summary>
    public DateOnly? InstructedOn { get; init; }

    /// <summary>Last day with the site; absent: still there. What was done until then stays judged by what held then.</summary>
    public DateOnly? Left { get; init; }

    /// <summary>
    /// The person as of a day: whoever has left by then may neither lock out nor let anything out, and no training outlasts them.
    /// </summary>
    /// <param name="day">The day.</param>
    public RegisteredPerson On(DateOnly day) =>
        Left is not { } left
            ? this
            : this with
            {
                Authorised = Authorised && day <= left,
                MayRelease = MayRelease && day <= left,
                TrainedUntil = TrainedUntil < left ? TrainedUntil : left,
            };
}
