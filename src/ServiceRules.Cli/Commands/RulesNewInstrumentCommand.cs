using System.CommandLine;
using ServiceRules.Application.Authoring;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Checking;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules new instrument ID</c>: a gauge of the shop, in its register.</summary>
internal static class RulesNewInstrumentCommand
{
    private static readonly Argument<string> Identity = new("ID")
    {
        Description = "What stands on the gauge, such as HG-01.",
    };

    private static readonly Option<string?> Kind = GivenEntry.One(
        "--kind",
        $"Its kind: {GivenWord.All<InstrumentKind>()}.",
        "KIND"
    );

    private static readonly Option<string?> Resolution = GivenEntry.One(
        "--resolution",
        "The smallest step it shows.",
        "LENGTH"
    );

    private static readonly Option<string?> Uncertainty = GivenEntry.One(
        "--uncertainty",
        "Expanded uncertainty (k = 2) of one reading: calibration, zero and repeatability together, without the step.",
        "LENGTH"
    );

    private static readonly Option<string[]> Measures = GivenEntry.Many(
        "--measures",
        "What people read with it: height-of-cut.",
        "QUANTITY"
    );

    private static readonly Option<string?> Like = GivenEntry.One(
        "--like",
        "A gauge of the register that it is like in all that is not given.",
        "ID"
    );

    public static Command Of(Session session)
    {
        var command = new Command(
            "instrument",
            "Enters a gauge in the register of the site, against which `rules check` holds the limits: 0 it is in the registers, 2 refused, and nothing is written. When its calibration is due stands in each record that uses it."
        )
        {
            Identity,
            Kind,
            Resolution,
            Uncertainty,
            Measures,
            Like,
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
        var register = Registered.Instruments(loaded);
        var gathered = new Gathered();
        var id = gathered.Of(() => GivenPerson.Identified("ID", parsed.GetRequiredValue(Identity))) ?? "";
        gathered.Add(id.Length == 0 ? null : register.Against(id, changes));
        var like = gathered.Of(() => LikeOf(parsed, register));
        var plain = changes ? register.Find(id) ?? like : like;
        // Where there is something to take the rest from, what cannot be read is told and nothing else.
        var isWhole = plain is not null || changes || parsed.GetValue(Like) is not null;
        var kind = gathered.Of<InstrumentKind?>(() =>
            parsed.GetValue(Kind) is { } given ? GivenWord.Of<InstrumentKind>(Kind.Name, given)
            : isWhole ? plain?.Kind
            : throw Missing(Kind, "what it is", "height-gauge")
        );
        var resolution = gathered.Of(() => Length(parsed, Resolution, plain?.Resolution, isWhole));
        var uncertainty = gathered.Of(() => Length(parsed, Uncertainty, plain?.ExpandedUncertainty, isWhole));
        var measures = gathered.Each(
            parsed.GetValue(Measures),
            word => GivenWord.Of<MeasuredQuantity>(Measures.Name, word)
        );
        if (parsed.GetValue(Measures) is null or [] && !isWhole)
        {
            gathered.Add(Missing(Measures, "what people read with it", "height-of-cut").Lines[0]);
        }

        gathered.End(loaded.Folder);
        var gauge = new RegisteredInstrument(
            new(id),
            kind!.Value,
            resolution!,
            uncertainty!,
            measures.Count > 0 ? [.. measures] : plain!.Measures
        );
        return AuthoringPrint.Write(
            session,
            loaded.Folder,
            EnterInRegister.Instrument(loaded, gauge, changes),
            $"{gauge.Id}: {FileWord.Of(gauge.Kind)}, shows steps of {gauge.Resolution}, a reading is good to {gauge.ExpandedUncertainty} (k = 2), for {string.Join(", ", gauge.Measures.Select(FileWord.Of))}",
            "when its calibration or inspection is due stands in each record that uses it, under `instruments`"
        );
    }

    private static RegisteredInstrument? LikeOf(
        ParseResult parsed,
        Registered<RegisteredInstrument> register
    ) =>
        parsed.GetValue(Like) is not { } named
            ? null
            : register.Find(named)
                ?? throw new InputException(
                    $"{Like.Name}: there is no instrument `{named}` in the register; accepted: {register.Names}"
                );

    private static PrintedLength? Length(
        ParseResult parsed,
        Option<string?> option,
        PrintedLength? before,
        bool isWhole
    ) =>
        GivenValue.Length(parsed, option)
        ?? before
        ?? (isWhole ? null : throw Missing(option, "a length with its unit", "0.01 mm"));

    private static InputException Missing(Option option, string what, string example) =>
        new($"{option.Name} is not given: {what}; accepted: `{option.Name} \"{example}\"`");
}
