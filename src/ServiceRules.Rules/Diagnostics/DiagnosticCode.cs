namespace ServiceRules.Rules.Diagnostics;

/// <summary>The stable names of what can be wrong with rules, sheets, cases and registers taken together.</summary>
public static class DiagnosticCode
{
    /// <summary>A rule's identity stands twice in one layer.</summary>
    public const string RuleTwice = "SR0001";

    /// <summary>Another identity (pack, sheet, order, procedure, person, lock) stands twice.</summary>
    public const string IdentityTwice = "SR0002";

    /// <summary>A limit sheet is named that is not there.</summary>
    public const string UnknownSheet = "SR0003";

    /// <summary>A rule is named that is not there.</summary>
    public const string UnknownRule = "SR0004";

    /// <summary>A rule applies to a sheet that does not state what the check needs.</summary>
    public const string SheetSaysNothing = "SR0005";

    /// <summary>An area is named that no setting order has.</summary>
    public const string UnknownArea = "SR0006";

    /// <summary>A site names a jurisdiction pack that is not there.</summary>
    public const string UnknownJurisdiction = "SR0007";

    /// <summary>A person is named that the register does not have.</summary>
    public const string UnknownPerson = "SR0008";

    /// <summary>A rule applies to no sheet: nothing states what it asks for.</summary>
    public const string NeverApplies = "SR0009";

    /// <summary>The two figures of a printed pair cannot be roundings of one length.</summary>
    public const string PrintsDisagree = "SR0010";

    /// <summary>The two figures of a printed pair lie more than 5 % apart.</summary>
    public const string PrintsFarApart = "SR0011";

    /// <summary>No value lies within a zone.</summary>
    public const string EmptyZone = "SR0012";

    /// <summary>A target lies outside the limits.</summary>
    public const string TargetOutside = "SR0013";

    /// <summary>Limits of one sheet are governed by different systems of units.</summary>
    public const string MixedUnits = "SR0014";

    /// <summary>An adjuster lacks the geometry from which clicks are counted.</summary>
    public const string NoGeometry = "SR0015";

    /// <summary>The procedure that a sheet teaches cannot end in met.</summary>
    public const string ProcedureCannotEnd = "SR0016";

    /// <summary>Adjusters disturb one another in a circle, so that the work never ends.</summary>
    public const string DisturbanceLoop = "SR0017";

    /// <summary>A limit is asked for at stations, and the sheet names none.</summary>
    public const string NoStations = "SR0018";

    /// <summary>The school in force is one that the sheet does not teach.</summary>
    public const string SchoolNotTaught = "SR0019";

    /// <summary>A sheet says nothing to people: no procedure, or no cautions.</summary>
    public const string SheetWithoutWords = "SR0020";

    /// <summary>The steps of an adjuster are coarser than the band that they must hit.</summary>
    public const string StepsTooCoarse = "SR0021";

    /// <summary>A limit sheet states something that no rule judges: it holds nobody.</summary>
    public const string QuantityNotJudged = "SR0022";

    /// <summary>A limit sheet leaves out a quantity, so that a rule never reaches that kind of unit.</summary>
    public const string RuleNotReached = "SR0023";

    /// <summary>A kind of unit and a task that no rule reaches: such jobs are held.</summary>
    public const string TaskNotReached = "SR0035";

    /// <summary>A check does not fit the scope of its rule.</summary>
    public const string ScopeDoesNotFit = "SR0030";

    /// <summary>A check does not fit its quantity.</summary>
    public const string QuantityDoesNotFit = "SR0031";

    /// <summary>A list of a rule names something twice.</summary>
    public const string ListRepeats = "SR0032";

    /// <summary>A rule that stops lets out what was never proven.</summary>
    public const string StopLetsUnprovenThrough = "SR0033";

    /// <summary>A rule or limit says that it is published and does not say where.</summary>
    public const string NoSource = "SR0034";

    /// <summary>A rule on the programme weighs more than its place lets it.</summary>
    public const string ProgrammeWeighs = "SR0036";

    /// <summary>A rule asks nothing that another rule does not ask of the same jobs already.</summary>
    public const string Shadowed = "SR0037";

    /// <summary>Two rules cannot both be met by one job.</summary>
    public const string RulesContradict = "SR0038";

    /// <summary>The last day of a rule is over: it judges no job from now on.</summary>
    public const string RuleOver = "SR0039";

    /// <summary>A rule of a higher layer loosens the rule that it takes the place of.</summary>
    public const string Loosens = "SR0040";

    /// <summary>A jurisdiction pack does not say what comes before it.</summary>
    public const string NoPrecedence = "SR0041";

    /// <summary>A text is cited by a pack of no jurisdiction.</summary>
    public const string CitationOutOfPlace = "SR0042";

    /// <summary>A text that the site is cited by is no longer in force, or not yet.</summary>
    public const string TextNotInForce = "SR0043";

    /// <summary>A rule lacks a case for a verdict that it can give.</summary>
    public const string CaseMissing = "SR0050";

    /// <summary>A case expects a verdict that its rule can never give.</summary>
    public const string CaseImpossible = "SR0051";

    /// <summary>A case cannot be built: no such fixture, or its patch does not fit.</summary>
    public const string CaseCannotBeBuilt = "SR0052";

    /// <summary>A file stands among the rules that nothing reads.</summary>
    public const string FileNotRead = "SR0060";

    /// <summary>There are more files, or larger ones, than are read.</summary>
    public const string TooMuch = "SR0061";

    /// <summary>A file that is needed is missing.</summary>
    public const string FileMissing = "SR0062";

    /// <summary>A file or folder cannot be read.</summary>
    public const string CannotBeRead = "SR0063";

    /// <summary>Two procedures are written for one machine at one place.</summary>
    public const string ProcedureTwice = "SR0070";

    /// <summary>A waiver or setting order is by a person whom the register does not let release anything.</summary>
    public const string MayNotRelease = "SR0071";

    /// <summary>Energy can build up again, and its procedure does not state how often it is checked or how much is too much.</summary>
    public const string BuildUpNotStated = "SR0072";

    /// <summary>Two setting orders that come into force on one day say different things of one area or kind of unit.</summary>
    public const string OrdersDisagree = "SR0073";

    /// <summary>A setting order allows more about a target than the limit sheet, whose tolerance counts all the same.</summary>
    public const string OrderWider = "SR0074";

    /// <summary>A waiver is of a rule that stops a job, because someone could be hurt: it counts for nothing.</summary>
    public const string StopWaived = "SR0075";

    /// <summary>One rule is waived twice on the same unit and days.</summary>
    public const string WaivedTwice = "SR0076";

    /// <summary>No registered gauge that measures a quantity can prove its limit.</summary>
    public const string NoGaugeCanProve = "SR0080";

    /// <summary>A gauge is registered with a step finer than any gauge of its kind shows.</summary>
    public const string StepTooFine = "SR0081";
}
