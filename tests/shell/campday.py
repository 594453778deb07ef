"""An invented camp day, as it is typed on the screen, at the prompts, in a sheet.

    campday.py prompts|sheet|keys [paper]

`keys` prints a line of keys for tmux per person; what is no key name is typed.
A line WAIT ... is what must be on the screen before the next keys are sent.
"""
import csv
import sys

FIELDS = ("number name contact age sex complaints risks past_right past_left "
          "signs_right signs_left depth_right why_right depth_left why_left "
          "pressure_right pressure_left consent").split()


def number(serial):
    nine = f"0014{serial:05d}"
    check = 98 - int(nine) * 100 % 97
    return f"{nine[:4]}-{nine[4:]}-{check:02d}"


def person(**answers):
    whole = dict.fromkeys(FIELDS, "")
    whole.update(grader="NT", sex="1", depth_right="100", depth_left="100",
                 pressure_right="16", pressure_left="17", consent="1")
    whole.update(answers)
    return whole


DAY = [
    person(age="58"),
    person(name="Adira Moru", contact="Upper Mavi village", age="60*",
           depth_right="25", depth_left="40"),
    person(name="Bekuro Maf", age="71", sex="2", complaints="1",
           signs_left="1", pressure_right="", pressure_left=""),
    person(grader="KO", age="72", depth_right="0", depth_left="5"),
    person(grader="KO", age="67", sex="2", depth_right="x", why_right="1"),
    person(grader="KO", age="49", past_left="6", depth_right="75",
           depth_left="-", pressure_left=None),
    person(grader="KO", name="田中 ゆき", age="33", depth_left="15"),
    person(grader="KO", name="عائشة بنت نور", contact="José e\u0301lu",
           age="64", risks="15", past_right="34"),
    person(grader="KO", sex="", depth_right="x", why_right="3",
           depth_left="x", why_left="2", pressure_right="",
           pressure_left=""),
    person(grader="KO", name="Wrong Person", age="40", undone=True),
    person(grader="KO", age="54", first_age="45", depth_left="40"),
    person(grader="KO", age="60", complaints="12345678", risks="12345",
           past_right="123456", past_left="123456", signs_right="123456",
           signs_left="123456", depth_right="15", depth_left="75"),
    person(grader="KO", name="Adira Moru", age="61", twin=True,
           depth_left="25"),
    person(grader="KO", age="66", sex="3", pressure_right="45",
           consent="2"),
]
PAPER = [
    person(number=number(90001), name="Dalo", age="59", depth_left="5"),
    person(number=number(90007), age="80*", complaints="8", consent="2"),
    person(age="44", depth_right="5"),
]


def asked(who, paper):
    """The questions that are asked, with their answers, in order."""
    for field in FIELDS:
        side = field.partition("_")[2]
        if field == "number" and not paper:
            continue
        if field.startswith("why_") and who["depth_" + side] != "x":
            continue
        if field.startswith("pressure_") and who["depth_" + side] == "-":
            continue
        yield field, who[field]


def prompts(people, paper):
    grader = "NT"
    print(grader)
    for who in people:
        if who["grader"] != grader:
            grader = who["grader"]
            print("<\n2\n" + grader)
        fields = list(asked(who, paper))
        for field, answer in fields:
            print(who.get("first_" + field, answer))
        for line, (field, answer) in enumerate(fields, 1):
            if "first_" + field in who:
                print(f"{line}\n{answer}")
        print()
        if who.get("undone"):
            print("<\n4\n1")


def keys(people, paper):
    grader = "NT"
    for who in people:
        if who["grader"] != grader:
            grader = who["grader"]
            print(f"Escape\nWAIT 2 another grader\n2\nWAIT Your initials\n"
                  f"{grader}\tEnter\nWAIT grader {grader}")
        fields = list(asked(who, paper))
        line = []
        for field, answer in fields:
            line += [who.get("first_" + field, answer), "Enter"]
            if field == "sex" and who.get("twin"):
                print("\t".join(filter(None, line)))
                print("WAIT Perhaps the same person")
                line = ["a"]
        print("\t".join(filter(None, line)))
        for place, (field, answer) in enumerate(fields):
            if "first_" + field in who:
                back = ["BTab"] * (len(fields) - place)
                print("WAIT Enter saves")
                print("\t".join(back + [answer, "Enter"]))
                print(f"WAIT {field.capitalize()} {answer}")
        print("WAIT Enter saves\nEnter\nWAIT Saved\nCOUNT")
        if who.get("undone"):
            print("Escape\nWAIT take back the last\n4\nWAIT because of\n1"
                  "\nWAIT is void\nEnter\nWAIT New person")


def sheet(people, paper):
    out = csv.writer(sys.stdout, lineterminator="\n")
    words = {"consent": {"1": "yes", "2": "no"},
             "sex": {"1": "F", "2": "M", "3": "X", "": ""}}
    names = {"age": "age_years", "consent": "reply_consent",
             "why_right": "not_gradable_why_right",
             "why_left": "not_gradable_why_left"}
    out.writerow(["grader", "age_estimated"] +
                 [names.get(field, field) for field in FIELDS])
    for who in people:
        row = [words.get(field, {}).get(who[field], who[field] or "")
               for field in FIELDS]
        age = row[FIELDS.index("age")]
        row[FIELDS.index("age")] = age.rstrip("*")
        out.writerow([who["grader"], "yes" if "*" in age else ""] + row)


paper = sys.argv[2:] == ["paper"]
{"prompts": prompts, "keys": keys, "sheet": sheet}[sys.argv[1]](
    PAPER if paper else DAY, paper)
