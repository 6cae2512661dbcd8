using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;

namespace ServiceRules.Application.Beginning;

/// <summary>A job that is about to be written down.</summary>
/// <param name="Machine">At which machine of the register.</param>
/// <param name="Task">For which task.</param>
/// <param name="Procedure">By which written procedure.</param>
/// <param name="Person">Who performs it; null: to be filled in.</param>
/// <param name="At">When, with the offset of the site.</param>
/// <param name="Draw">Something drawn for it: of two that are begun at one time, each has an identity of its own.</param>
public sealed record JobToBegin(
    RegisteredMachine Machine,
    ServiceTask Task,
    Procedure Procedure,
    string? Person,
    DateTimeOffset At,
    string Draw
);
