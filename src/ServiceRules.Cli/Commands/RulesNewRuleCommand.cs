using System.CommandLine;
using System.Text.RegularExpressions;
using ServiceRules.Application.Authoring;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules new rule ID</c>: a rule of the site, with cases that come out as they say.</summary>
internal static partial class RulesNewRuleCommand
{
    private static readonly Dictionary<string, Func<MeasuredQuantity, Check>> Kinds = new(
        StringComparer.Ordinal
    )
    {
        ["sound-condition"] = quantity => new Check.SoundCondition(quantity),
        ["limit-on-quantity"] = quantity => new Check.LimitOnQuantity(
            quantity,
            LimitSource.Sheet,
            CheckedPlaces.Stations
        ),
        ["procedural-limit"] = quantity => new Check.ProceduralLimit(quantity),
        ["contact"] = quantity => new Check.Contact(quantity),
        ["presence"] = quantity => new Check.Presence(quantity, RequiredPhase.Left, RequiredPlaces.Any),
        ["freshness"] = quantity => new Check.Freshness(quantity),
    };

    private static readonly Argument<string> Identity = new("ID")
    {
        Description = "What the rule is called for ever, such as brush-bearings-sound.",
    };

    private static readonly Option<string?> CheckOption = One(
        "--check",
        $"What is asked: {string.Join(", ", Kinds.Keys)}. Other kinds are written by hand.",
        "KIND"
    );

    private static readonly Option<string?> Quantity = One("--quantity", "Of what.", "QUANTITY");

    private static readonly Option<string[]> Attachments = Many(
        "--attachment",
        "Only with this attachment fitted.",
        "WORD"
    );

    private static readonly Option<string[]> Tasks = Many(
        "--task",
        "Only on this task. Default: on all.",
        "WORD"
    );

    private static readonly Option<string[]> Sheets = Many(
        "--sheet",
        "Only on units of this limit sheet.",
        "SHEET"
    );

    private static readonly Option<string?> Title = One("--title", "A short title.", "TEXT");

    private static readonly Option<string?> Requirement = One(
        "--requirement",
        "The rule in one plain sentence.",
        "TEXT"
    );

    private static readonly Option<string?> Advice = One(
        "--advice",
        "What to do, in words for the bench.",
        "TEXT"
    );

    private static readonly Option<string?> SeverityOption = One(
        "--severity",
        "stop, hold or advise. Default: hold.",
        "WORD"
    );

    private static readonly Option<string?> Unproven = One(
        "--unproven",
        "What follows when it cannot be decided: hold, second-person or advise. Default: hold.",
        "WORD"
    );

    private static readonly Option<string?> BasisOption = One(
        "--basis",
        "What it rests on. Default: site-policy.",
        "KIND"
    );

    private static readonly Option<string?> Source = One(
        "--source",
        "The source, where there is one.",
        "TEXT"
    );

    private static readonly Option<string?> Topic = One(
        "--topic",
        "Its file in the folder of the site: TOPIC.rules.json. Default: site.",
        "TOPIC"
    );

    public static Command Of(Session session)
    {
        var command = new Command(
            "rule",
            "Makes a rule of the site on one quantity of a unit, with a fixture and with cases met, not met and unproven that come out so: 0 it is in the folder, 2 refused, and nothing is written."
        )
        {
            Identity,
            CheckOption,
            Quantity,
            Attachments,
            Tasks,
            Sheets,
            Title,
            Requirement,
            Advice,
            SeverityOption,
            Unproven,
            BasisOption,
            Source,
            Topic,
            RulesInForce.Option,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        var loaded = RulesInForce.Sound(parsed);
        var asked = new Asked(parsed, session);
        var quantity = asked.Needed(
            Quantity,
            "of what",
            "guards",
            text => GivenWord.Of<MeasuredQuantity>(Quantity.Name, text)
        );
        var rule = RuleOf(parsed, asked, quantity);
        var topic = parsed.GetValue(Topic) is { } given ? Word(Topic.Name, given) : "site";
        var outcome = NewRule.Run(loaded, rule, quantity, topic);
        return AuthoringPrint.Write(
            session,
            loaded.Folder,
            outcome,
            $"next: servicerules rules test --rule {rule.Id} --all shows its cases; servicerules rules compare OLD NEW RECORDS what it would turn"
        );
    }

    private static Rule RuleOf(ParseResult parsed, Asked asked, MeasuredQuantity quantity)
    {
        var kind = parsed.GetValue(BasisOption) is { } given
            ? GivenWord.Of<BasisKind>(BasisOption.Name, given)
            : BasisKind.SitePolicy;
        return new()
        {
            Id = new(Word("ID", parsed.GetRequiredValue(Identity))),
            Check = asked.Needed(
                CheckOption,
                $"what is asked ({string.Join(", ", Kinds.Keys)})",
                "sound-condition",
                KindOf
            )(quantity),
            Title = asked.Needed(Title, "a short title", "Brush bearings", text => text),
            Requirement = asked.Needed(
                Requirement,
                "the rule in one plain sentence",
                "The bearings of the brush run without play.",
                text => text
            ),
            When = new()
            {
                Tasks = [.. asked.All(Tasks, text => GivenWord.Of<ServiceTask>(Tasks.Name, text))],
                Attachments =
                [
                    .. asked.All(Attachments, text => GivenWord.Of<Attachment>(Attachments.Name, text)),
                ],
                Sheets = [.. asked.All(Sheets, text => GivenPerson.Identified(Sheets.Name, text))],
                // A sheet that says nothing of it has nothing to be held to.
                SheetStates = quantity,
            },
            Scope = RuleScope.Unit,
            Severity = parsed.GetValue(SeverityOption) is { } severity
                ? GivenWord.Of<Severity>(SeverityOption.Name, severity)
                : Severity.Hold,
            Unproven = parsed.GetValue(Unproven) is { } unproven
                ? GivenWord.Of<UnprovenPolicy>(Unproven.Name, unproven)
                : UnprovenPolicy.Hold,
            Basis = GivenFigure.Basis(kind, parsed.GetValue(Source), BasisOption.Name),
            Advice = asked.Needed(
                Advice,
                "what to do, in words for the bench",
                "Replace the bearings.",
                text => text
            ),
        };
    }

    private static Func<MeasuredQuantity, Check> KindOf(string word) =>
        Kinds.TryGetValue(word, out var kind)
            ? kind
            : throw new InputException(
                $"{CheckOption.Name}: `{word}` is not made here; accepted: {string.Join(", ", Kinds.Keys)}; other kinds are written by hand, as docs/rule-authoring.md shows"
            );

    private static string Word(string name, string text) =>
        text.Length <= 64 && Identities().IsMatch(text)
            ? text
            : throw new InputException(
                $"{name}: `{text}` is no identity of a rule; accepted: small letters and digits joined by hyphens, such as `brush-bearings-sound`"
            );

    private static Option<string?> One(string name, string description, string help) =>
        new(name) { Description = description, HelpName = help };

    private static Option<string[]> Many(string name, string description, string help) =>
        new(name) { Description = description, HelpName = help };

    [GeneratedRegex(@"\A[a-z][a-z0-9]*(-[a-z0-9]+)*\z")]
    private static partial Regex Identities();
}
