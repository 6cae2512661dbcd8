using System.CommandLine;
using ServiceRules.Application.Authoring;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules new lock ID</c>: a lock or tag, in the register.</summary>
internal static class RulesNewLockCommand
{
    private static readonly Argument<string> Identity = new("ID")
    {
        Description = "What stands on the lock or tag, such as L-11.",
    };

    private static readonly Option<string?> Owner = GivenEntry.One(
        "--owner",
        "To whom it is issued. Default: a job lock.",
        "PERSON"
    );

    private static readonly Option<string?> Style = GivenEntry.One(
        "--style",
        "How it looks. Default: as the site's own do.",
        "TEXT"
    );

    private static readonly Option<string?> Legend = GivenEntry.One(
        "--legend",
        "What a tag warns of; with it, it is a tag.",
        "TEXT"
    );

    public static Command Of(Session session)
    {
        var command = new Command(
            "lock",
            "Enters a lock or a tag in the register of the site: 0 it is in the registers, 2 refused, and nothing is written."
        )
        {
            Identity,
            Owner,
            Style,
            Legend,
            GivenEntry.Change,
            RulesInForce.Option,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        var loaded = GivenEntry.Folder(parsed);
        var changes = parsed.GetValue(GivenEntry.Change);
        var register = Registered.Locks(loaded);
        var gathered = new Gathered();
        var id = gathered.Of(() => GivenPerson.Identified("ID", parsed.GetRequiredValue(Identity))) ?? "";
        gathered.Add(id.Length == 0 ? null : register.Against(id, changes));
        var owner = gathered.Of(() =>
            parsed.GetValue(Owner) is { } given ? Somebody(given, Registered.People(loaded)) : null
        );
        gathered.End(loaded.Folder);
        var standing = changes ? register.Find(id) : null;
        var plain = standing ?? new(new(id), null) { Style = loaded.Site!.LockStyle };
        var legend = parsed.GetValue(Legend) ?? plain.Legend;
        var device = plain with
        {
            Owner = owner is null ? plain.Owner : new Id<Participant>(owner),
            Style = parsed.GetValue(Style) ?? plain.Style,
            Legend = legend,
            IsTag = legend is not null || plain.IsTag,
        };
        return AuthoringPrint.Write(
            session,
            loaded.Folder,
            EnterInRegister.Lock(loaded, device, changes),
            $"{device.Id}: {(device.IsTag ? "a tag" : "a lock")}, {(device.Owner is { } of ? $"issued to {of}" : "issued to nobody, for jobs of several")}"
        );
    }

    private static string Somebody(string given, Registered<RegisteredPerson> people) =>
        people.Find(given) is not null
            ? given
            : throw new InputException(
                $"{Owner.Name}: there is nobody `{given}` in the register; accepted: {people.Names}"
            );
}
