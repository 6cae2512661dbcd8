namespace ServiceRules.Formats.Vocabulary;

/// <summary>How long the lists of documents may be. Each is several times what a real shop needs, and ends hostile input.</summary>
public static class FormatLimits
{
    /// <summary>Units in one job: a bench check holds twelve; the largest gangs have eleven.</summary>
    public const int Units = 40;

    /// <summary>Bench entries of one unit: a full overhaul with every blade at three stations is about a hundred.</summary>
    public const int Entries = 500;

    /// <summary>Timeline events of one job: six people at eight sources, twice a day, are under two hundred.</summary>
    public const int Events = 1_000;

    /// <summary>People, instruments or settings of one job.</summary>
    public const int JobParts = 60;

    /// <summary>Photos of one job.</summary>
    public const int Photos = 200;

    /// <summary>Feelers tried as one stack; more than a handful no longer says how thick it is.</summary>
    public const int FeelerStack = 5;

    /// <summary>Rules of one pack.</summary>
    public const int Rules = 500;

    /// <summary>Cases of one file: three or more for each of its rules.</summary>
    public const int Cases = 2_000;

    /// <summary>People, locks, machines, waivers or targets of one site.</summary>
    public const int Register = 2_000;

    /// <summary>Times at which people came and left: forty people over two years of working days.</summary>
    public const int Attendance = 20_000;

    /// <summary>Values of one closed vocabulary that a rule may list.</summary>
    public const int Words = 60;

    /// <summary>Lines of a taught procedure, or cautions of a sheet.</summary>
    public const int Lines = 60;

    /// <summary>Findings of one assessment: all rules on all units and the job.</summary>
    public const int Findings = 20_000;

    /// <summary>Numbers, entries or notices behind one finding.</summary>
    public const int Evidence = 2_000;

    /// <summary>Clock changes of a zone: two a year from 1990 to 2200 are 422.</summary>
    public const int ZoneTransitions = 1_000;

    /// <summary>Contents that named one person: records, assessments and reports of a working life.</summary>
    public const int ErasedContents = 100_000;

    /// <summary>Values of a mapping that go to a record, or to one item: more than any kind of item has members.</summary>
    public const int MappedValues = 60;

    /// <summary>Lists of a mapping: for each reading that has a column of its own one, on a sheet with every station.</summary>
    public const int MappedLists = 100;

    /// <summary>Columns of a table.</summary>
    public const int Columns = 300;

    /// <summary>The lowest row that headings may stand in: above them are titles.</summary>
    public const int HeadingRow = 50;

    /// <summary>Characters of a title or a name for people.</summary>
    public const int Title = 120;

    /// <summary>Characters of a sentence or two.</summary>
    public const int Sentence = 600;

    /// <summary>Characters of a reason, a complaint or a note.</summary>
    public const int Note = 2_000;
}
