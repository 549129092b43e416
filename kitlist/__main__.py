from kitlist.cli import main

main()
