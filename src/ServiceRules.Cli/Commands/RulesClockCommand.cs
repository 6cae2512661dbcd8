using System.CommandLine;
using ServiceRules.Application.Authoring;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules clock</c>: the clock of the site, computed anew out of the zone data of this machine.</summary>
internal static class RulesClockCommand
{
    public static Option<string?> DataVersion { get; } =
        GivenEntry.One(
            "--zone-data",
            "The version of the zone data, where the machine does not say it: 2025b.",
            "VERSION"
        );

    public static Command Of(Session session)
    {
        var command = new Command(
            "clock",
            "Computes the clock in site.json anew out of the zone data of this machine, for the years from the one before last: 0 it is in the folder, 2 refused, and nothing is written."
        )
        {
            DataVersion,
            RulesInForce.Option,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        var loaded = GivenEntry.Folder(parsed);
        var today = DateOnly.FromDateTime(session.Clock.GetUtcNow().UtcDateTime);
        var zoneData = parsed.GetValue(DataVersion);
        return AuthoringPrint.Write(
            session,
            loaded.Folder,
            RenewClock.Run(loaded, zoneData, today),
            FormattableString.Invariant(
                $"clock: {loaded.Site!.Zone.Name} from {SiteClock.FirstYear(today)} through {SiteClock.LastYear(today)}, zone data {zoneData ?? KnownZones.Version()}; what was kept of earlier years stays"
            ),
            "records of days on which clocks go otherwise now, judged anew, may come out otherwise; `rules compare` shows which"
        );
    }
}
